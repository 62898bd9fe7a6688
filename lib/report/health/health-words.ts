import type { BalanceDrift } from '@/lib/core/pipeline/balance-drift';
import { decimalsOf, formatNumber } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import { countOf, REASON_WORDS } from '@/lib/report/format/words';
import { REASON_ADVICE } from '@/lib/report/unit/reason-advice';
import type { HealthKind, UnitHealth } from './unit-health';

/** Two parts to be shown together: what is wrong, and what a person can do. */
export type HealthWords = { what: string; todo: string };

const DRIFT_ADVICE =
  'One balance cannot tell which sensor it is. Compare each with a second instrument, the flow meters first.';

/** What is wrong with the data of a unit, and what to do about it. */
export function healthWords(unit: UnitHealth): HealthWords {
  const { drift, worstReason, sinceDay, usable, kind, hasReadings } = unit;
  if (!hasReadings) return { what: 'no readings yet', todo: 'Import its readings.' };
  const parts: HealthWords[] = [];
  if (drift !== null) parts.push({ what: driftInWords(drift), todo: DRIFT_ADVICE });
  const isReasonTold = worstReason !== null && (kind !== 'fine' || (usable ?? 1) < 1);
  if (isReasonTold && (drift === null || kind === 'no-data')) {
    const since = sinceDay === null ? '' : ` since ${formatDay(sinceDay)}`;
    parts.push({ what: `${REASON_WORDS[worstReason]}${since}`, todo: REASON_ADVICE[worstReason].advice });
  }
  return {
    what: parts.map(({ what }) => what).join('; '),
    todo: parts.map(({ todo }) => todo).join(' '),
  };
}

/** "heat balance drifts by +1.2 ± 0.3 % a month since 3 Mar 2026", or "shifted by … on …". */
export function driftInWords({ kind, sinceDay, change, changeUncertainty, ...month }: BalanceDrift): string {
  const { perMonth, perMonthUncertainty } = month;
  if (kind === 'drift' && perMonth !== null)
    return `heat balance drifts by ${signedPercent(perMonth, perMonthUncertainty)} a month since ${formatDay(sinceDay)}`;
  return `heat balance shifted by ${signedPercent(change, changeUncertainty)} on ${formatDay(sinceDay)}`;
}

function signedPercent(share: number, uncertainty: number | null): string {
  const decimals = uncertainty === null ? 1 : Math.min(2, Math.max(0, decimalsOf(100 * uncertainty)));
  const spread = uncertainty === null ? '' : ` ± ${formatNumber(100 * uncertainty, decimals)}`;
  return `${share > 0 ? '+' : ''}${formatNumber(100 * share, decimals)}${spread} %`;
}

/** What a person must know of the data of the whole fleet. */
export function fleetHealthInWords(counts: Record<HealthKind, number>): string {
  const all = counts.suspect + counts.few + counts.fine + counts['no-data'];
  const parts = [
    counts.suspect > 0 ? `${verb(counts.suspect)} data that are suspect` : '',
    counts.few > 0 ? `${verb(counts.few)} few usable readings` : '',
    counts['no-data'] > 0 ? `${verb(counts['no-data'])} no usable data at all` : '',
  ].filter((part) => part !== '');
  if (parts.length === 0) return `The data of all ${countOf(all, 'unit')} are sound.`;
  return `Of ${countOf(all, 'unit')}, ${parts.join(', ')}; ${counts.fine} ${counts.fine === 1 ? 'is' : 'are'} sound.`;
}

function verb(count: number): string {
  return `${count} ${count === 1 ? 'has' : 'have'}`;
}
