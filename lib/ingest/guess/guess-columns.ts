import type { ColumnGuess } from '@/lib/contract/column-guess';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { assign, type Pair } from './assign';
import { type ColumnSample, type Spread, spreadOf } from './column-sample';
import { contradictions } from './contradictions';
import { columnCaps, reasonsOf } from './guess-reasons';
import { type Candidate, candidatesOf, NOTHING } from './rate-column';
import { TagFinder } from './tag-finder';
import type { UnitTargets } from './unit-targets';

export type GuessInput = {
  /** Names beside the columns': the file's and the sheet's. */
  titles: string[];
  columns: readonly ColumnSample[];
  units: readonly UnitTargets[];
  /** Unit and sensor pairs that other columns hold already. */
  taken: readonly { tag: string; sensor: Sensor }[];
};

/** A guess less sure than this is none. */
const LEAST_CONFIDENCE = 0.05;

/**
 * Which unit's which sensor each column is, with how sure that is and why; null where nothing speaks for any. Every column is
 * rated against every sensor its name can mean, the assignment is the best one as a whole, and the confidence is what is left
 * after the column's other possibilities and the sensor's other columns.
 */
export function guessColumns({ titles, columns, units, taken }: GuessInput): (ColumnGuess | null)[] {
  const finder = new TagFinder(units.map(({ tag }) => tag));
  const takenKeys = new Set(taken.map(({ tag, sensor }) => `${sensor} ${tag}`));
  const spreads = columns.map(({ numbers }) => spreadOf(numbers));
  const rated = columns.map((column, row) =>
    candidatesOf(column, { spread: spreads[row]!, finder, titles, units }).filter(
      ({ tag, sensor }) => !takenKeys.has(`${sensor} ${tag}`),
    ),
  );
  const chosen = choose(rated);
  const shares = sharesOfSensors(rated);
  const doubts = contradictions(chosen, spreads);
  return chosen.map((candidate, row) => {
    if (candidate === null) return null;
    const column = { sample: columns[row]!, spread: spreads[row]! as Spread | null };
    const odds =
      shareOf(candidate, rated[row]!) * (Math.exp(candidate.weight) / shares.get(keyOf(candidate))!);
    const caps = [...columnCaps(candidate, column), ...(doubts.get(row) ?? [])];
    const confidence = Math.min(odds, ...caps.map(({ most }) => most));
    if (confidence < LEAST_CONFIDENCE) return null;
    return {
      tag: candidate.tag,
      sensor: candidate.sensor,
      unit: candidate.values.unit,
      confidence: Math.round(confidence * 1000) / 1000,
      reasons: [...reasonsOf(candidate, column), ...caps.map(({ reason }) => reason)],
    };
  });
}

function choose(rated: readonly Candidate[][]): (Candidate | null)[] {
  const places = new Map<string, number>();
  const pairs: (Pair & { candidate: Candidate })[] = [];
  for (const [row, candidates] of rated.entries()) {
    for (const candidate of candidates) {
      const worth = candidate.weight - NOTHING + WORTH_SHIFT;
      if (worth <= 0) continue;
      const key = keyOf(candidate);
      const place = places.get(key) ?? places.size;
      places.set(key, place);
      pairs.push({ row, place, worth, candidate });
    }
  }
  const chosen: (Candidate | null)[] = rated.map(() => null);
  for (const pair of assign(pairs)) chosen[pair.row] = (pair as (typeof pairs)[number]).candidate;
  return chosen;
}

/** A column that is a little likelier nothing at all is still shown with its best guess, unsure as it is. */
const WORTH_SHIFT = 3;

/** Share of a candidate among all that its column could be, nothing included. */
function shareOf(candidate: Candidate, candidates: readonly Candidate[]): number {
  const all = candidates.reduce((sum, { weight }) => sum + Math.exp(weight), Math.exp(NOTHING));
  return Math.exp(candidate.weight) / all;
}

function sharesOfSensors(rated: readonly Candidate[][]): Map<string, number> {
  const sums = new Map<string, number>();
  for (const candidates of rated)
    for (const candidate of candidates) {
      const key = keyOf(candidate);
      sums.set(key, (sums.get(key) ?? 0) + Math.exp(candidate.weight));
    }
  return sums;
}

function keyOf({ tag, sensor }: Candidate): string {
  return `${SENSORS.indexOf(sensor)} ${tag}`;
}
