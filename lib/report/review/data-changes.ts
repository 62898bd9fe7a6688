import type { UnitStatement } from '@/lib/contract/review';
import { POOR_SHARE } from '../fleet/summary-trace';
import { type Change, cycleKey, dayKey } from './change';
import type { UnitFacts } from './unit-facts';

/** A usable share that fell by this much has got worse [-] (own choice): three whole days of the thirty it is judged over. */
export const USABLE_FALL = 0.1;
/** Without any reading for longer than this a unit is silent [days] (own choice): a missed night is not worth a word. */
export const SILENT_DAYS = 2;
/** Shares are ratios of counts: a fall of exactly the limit must not hang on their last digit [-]. */
const ROUNDING = 1e-9;

/** What got worse with the data: none any more; else fewer usable ones or another cause; else a balance that drifts. */
export function dataChanges(facts: UnitFacts): Change[] {
  const { now, before } = facts;
  if (isNewlySilent(facts)) return [silence(facts)];
  if (now.state === 'no-data') return [];
  const changes: Change[] = [];
  if (isWorse(before, now)) {
    const key = `data-worse@${now.worstReason}`;
    changes.push({ kind: 'data-worse', urgency: 'look', key, day: now.suspectSinceDay });
  }
  if (now.drift !== null && before.drift === null) {
    const key = cycleKey('suspect', facts);
    changes.push({ kind: 'suspect', urgency: 'look', key, day: now.drift.sinceDay });
  }
  return changes;
}

/** Nothing usable for so long that nothing is said of it; or readings have stopped, and had not by then. */
function isNewlySilent({ now, nowDay, before, beforeDay, lastReceivedDay }: UnitFacts): boolean {
  if (now.state === 'no-data') return before.state !== 'no-data';
  if (lastReceivedDay === null) return false;
  const isSilent = nowDay - lastReceivedDay > SILENT_DAYS;
  return isSilent && beforeDay - lastReceivedDay <= SILENT_DAYS;
}

function silence({ now, nowDay, lastAcceptedDay }: UnitFacts): Change {
  const day = lastAcceptedDay === null ? nowDay : lastAcceptedDay + 1;
  // Standing still is no fault of the data.
  const urgency = now.worstReason === 'unit-off' ? 'know' : 'act';
  return { kind: 'no-data', urgency, key: dayKey('no-data', day), day };
}

/**
 * Fewer usable readings; or a fault that newly makes the data suspect; or another main cause where most readings are lost:
 * among a few left out, the largest cause changes often.
 */
function isWorse(before: UnitStatement, now: UnitStatement): boolean {
  if (now.usable === null || now.worstReason === null) return false;
  const hasFallen = before.usable !== null && before.usable - now.usable >= USABLE_FALL - ROUNDING;
  const isNewlySuspect =
    now.suspectSinceDay !== null && before.suspectSinceDay === null && now.drift === null;
  const isOtherCause = now.usable < POOR_SHARE && now.worstReason !== before.worstReason;
  return hasFallen || isNewlySuspect || isOtherCause;
}
