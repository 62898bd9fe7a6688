import type { Unit } from '@/lib/contract/fleet-file';
import { inSi } from '@/lib/contract/in-si';
import { median } from '@/lib/core/stats/quantile';
import { countOf } from '@/lib/report/format/words';
import type { CleaningRecord } from '@/lib/report/records';

const MS_PER_SECOND = 1000;
/** Cleanings looked back on, the latest of those that say so; fewer than two are no rule [-] (own choice). */
const LOOKED_BACK_ON = 5;
const FEWEST = 2;
/** A cleaning takes this long where nobody says [ms]: a shift (own choice). */
const ASSUMED_MS = 8 * 3_600_000;

/** What a cleaning of a unit costs and takes, and where that came from. */
export type UsualCleaning = {
  /** Money in the currency of the site; 0 where neither the record nor the datasheet says. */
  cost: number;
  durationMs: number;
  method: string | null;
  words: { cost: string; duration: string };
};

/**
 * What the next cleaning is expected to cost and take: the median of what the last recorded ones did in fact; of the datasheet
 * where fewer than two say so.
 */
export function usualCleaning(
  { cleaning: stated = {} }: Pick<Unit, 'cleaning'>,
  cleanings: readonly Pick<CleaningRecord, 'at' | 'cost' | 'durationMs' | 'method'>[],
): UsualCleaning {
  const latest = cleanings.toSorted((one, other) => other.at - one.at);
  const costs = lastOf(latest.map(({ cost }) => cost));
  const durations = lastOf(latest.map(({ durationMs }) => durationMs));
  const statedMs =
    stated.duration === undefined ? null : Math.round(inSi(stated.duration, 'duration') * MS_PER_SECOND);
  return {
    cost: costs === null ? (stated.cost ?? 0) : median(costs),
    durationMs: durations === null ? (statedMs ?? ASSUMED_MS) : median(durations),
    method: stated.method ?? latest.find(({ method }) => method !== null)?.method ?? null,
    words: {
      cost: whence(costs, stated.cost === undefined ? 'not stated: counted as nothing' : null),
      duration: whence(durations, statedMs === null ? 'not stated: 8 hours assumed' : null),
    },
  };
}

/** The latest figures that were written down; null where too few were. */
function lastOf(figures: (number | null)[]): number[] | null {
  const known = figures.filter((figure) => figure !== null).slice(0, LOOKED_BACK_ON);
  return known.length < FEWEST ? null : known;
}

function whence(recorded: number[] | null, unstated: string | null): string {
  if (recorded !== null) return `median of the last ${countOf(recorded.length, 'recorded cleaning')}`;
  return unstated ?? 'as the datasheet states';
}
