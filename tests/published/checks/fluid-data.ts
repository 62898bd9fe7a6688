import { readPublished } from '../../support/published-data';
import type { Check, Origin } from './check';
import type { SourceName } from './sources';
import { digits, type Tolerance } from './tolerance';

type FluidCase = {
  fluid: string;
  rows: (number | string)[][];
  freezing_point?: { rows: number[][] };
  check_value_R13_08_table8?: Record<string, number>;
};

const { cases } = readPublished<{ cases: FluidCase[] }>('fluids');

/** A case of the file by the fluid it names. */
export function fluidCase(fluid: string): FluidCase {
  return cases.find((entry) => entry.fluid === fluid)!;
}

/** The rows of a case that holds numbers only. */
export function fluidRows(fluid: string): number[][] {
  return fluidCase(fluid).rows as number[][];
}

/** The tolerance of the file against the same formula. */
export const SAME_FORMULA = digits(7, 'the file asks for 1e-6 against the same formula', 1e-6);
/** Half a unit of the last of the digits that stand in the file. */
export const written = (count: number) => digits(count, 'as the file gives');

type Grid = {
  id: string;
  quantity: string;
  unit: string;
  source: SourceName;
  origin?: Origin;
  tolerance: Tolerance;
  rows: number[][];
  at: (row: number[]) => string;
  place: number;
  ours: (row: number[]) => number;
};

/** A check of one column over the rows of a case. */
export function grid({ rows, at, place, ours, origin = 'computed', ...check }: Grid): Check {
  return {
    ...check,
    origin,
    rows: rows.map((row) => ({ at: at(row), theirs: row[place]!, ours: ours(row) })),
  };
}
