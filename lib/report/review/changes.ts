import { type Change, cycleKey, dayKey } from './change';
import { cleanByMove } from './clean-by-move';
import { dataChanges } from './data-changes';
import type { UnitFacts } from './unit-facts';

/** A clean-by day that moved closer than this needs somebody this week [days] (own choice: the lead of a small outage). */
const SOON_DAYS = 60;
/** A fall found again after more readings may lie this far from where it was first put [days] (own choice). */
const SAME_FALL_DAYS = 3;

/**
 * What changed of a unit between two days, the most pressing first; as few lines as tell it. A cleaning explains a state
 * that got better and a clean-by day that moved, so neither is told beside one; so does a fall that looks like one; and a
 * unit that has come near or over its limit has its clean-by day told there.
 */
export function changesOf(facts: UnitFacts): Change[] {
  if (facts.nowDay <= facts.beforeDay) return [];
  const restart = [...cleanedSince(facts), ...newFalls(facts)];
  const limit = limitChange(facts, restart.length > 0);
  const isTold = restart.length > 0 || limit !== null;
  return [
    ...(limit === null ? [] : [limit]),
    ...(isTold ? [] : moved(facts)),
    ...dataChanges(facts),
    ...restart,
  ];
}

/** Over the limit, near it, or back from either; after a cleaning or a fall, near or over it is news again. */
function limitChange(facts: UnitFacts, hasRestarted: boolean): Change | null {
  const { before, now } = facts;
  const change = (kind: Change['kind'], urgency: Change['urgency'], day: number | null): Change => ({
    kind,
    urgency,
    key: cycleKey(kind, facts),
    day,
  });
  if ((now.state === before.state && !hasRestarted) || now.state === 'no-data') return null;
  if (now.state === 'over-limit') return change('over-limit', 'act', now.crossedDay);
  if (hasRestarted) return now.state === 'near-limit' ? change('near-limit', 'act', null) : null;
  if (before.state === 'over-limit') return change('below-limit', 'know', null);
  if (now.state === 'near-limit') return change('near-limit', 'act', null);
  return before.state === 'near-limit' ? change('below-limit', 'know', null) : null;
}

function moved(facts: UnitFacts): Change[] {
  const { now, nowDay, before } = facts;
  if (now.state === 'over-limit' || now.state === 'no-data' || before.state === 'no-data') return [];
  const move = cleanByMove(facts, facts);
  if (move === null) return [];
  const kind = `clean-by-${move}` as const;
  const isSoon = move === 'sooner' && now.p50Day! - nowDay <= SOON_DAYS;
  const urgency = isSoon ? 'act' : move === 'sooner' ? 'look' : 'know';
  return [{ kind, urgency, key: cycleKey(kind, facts), day: now.p50Day }];
}

function cleanedSince({ cleanings }: UnitFacts): Change[] {
  const days = [...new Set(cleanings.map(({ day }) => day))];
  return days.map((day) => ({ kind: 'cleaned', urgency: 'know', key: dayKey('cleaned', day), day }));
}

/** Falls found since, and not answered: those asked about before are no news. */
function newFalls({ falls, before }: UnitFacts): Change[] {
  const isNew = (day: number) =>
    before.probableCleanings.every((known) => Math.abs(known - day) > SAME_FALL_DAYS);
  return falls
    .filter(({ day }) => isNew(day))
    .map(({ day }) => ({
      kind: 'probable-cleaning',
      urgency: 'look',
      key: dayKey('probable-cleaning', day),
      day,
    }));
}
