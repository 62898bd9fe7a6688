import { SENSORS } from '@/lib/core/exchange/exchanger';
import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import type { ReadingRows } from './reading-rows';

/** Bit of `flowBasis` that belongs to each sensor, in the order of SENSORS; 0 for what is no flow. */
export const BASIS_BITS: readonly number[] = SENSORS.map((sensor) =>
  sensor === 'hotFlow' ? HOT_FLOW_IS_VOLUME : sensor === 'coldFlow' ? COLD_FLOW_IS_VOLUME : 0,
);

/** What stands of a reading: values in the order of SENSORS [SI], null = none, and the basis of its flows. */
export type StandingRow = { values: (number | null)[]; flowBasis: number };

/** `replaced`: a value that was there changed. `added`: nothing changed but what had been missing. */
export type Merged = 'unchanged' | 'added' | 'replaced';

/** Lays row i of a file over what stands, in place: the file's values hold, those it does not have stay as they were. */
export function mergeRow(standing: StandingRow, rows: ReadingRows, i: number): Merged {
  const { values } = standing;
  const given = rows.flowBasis[i]!;
  let merged: Merged = 'unchanged';
  for (let s = 0; s < values.length; s++) {
    const value = rows.values[s]![i]!;
    if (Number.isNaN(value)) continue;
    const bit = BASIS_BITS[s]!;
    const isSameBasis = ((standing.flowBasis ^ given) & bit) === 0;
    if (values[s] === value && isSameBasis) continue;
    if (values[s] !== null) merged = 'replaced';
    else if (merged === 'unchanged') merged = 'added';
    values[s] = value;
    standing.flowBasis = (standing.flowBasis & ~bit) | (given & bit);
  }
  return merged;
}

/** A row of a file as it stands where nothing stood before. */
export function newRow(rows: ReadingRows, i: number): StandingRow {
  const values = rows.values.map((column) => (Number.isNaN(column[i]!) ? null : column[i]!));
  return { values, flowBasis: rows.flowBasis[i]! };
}
