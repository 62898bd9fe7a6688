import { type Level, pathEntries, uppersOf } from './lagrangian';
import type { Programme } from './solve-programme';
import { alongPath } from './unit-arcs';

type Column = { unit: number; options: number[]; cost: number; entries: { row: number; value: number }[] };

/** The master programme, and how its duals are read. */
type Master = {
  programme: Programme;
  /** Duals of the level's rows, ≤ 0, and of the units, in unscaled costs. */
  dualsOf: (duals: Float64Array) => { rows: Float64Array; units: Float64Array };
};

/** Schedules of single units that the solver may combine. */
export type ColumnPool = {
  size: () => number;
  /** Adds a schedule of a unit; false where it is there already. */
  add: (unit: number, options: readonly number[]) => boolean;
  /** The programme that picks one schedule for each unit, of the columns there are. */
  master: (isInteger: boolean) => Master;
  /** Values of the programme for a schedule whose parts are all there. */
  valuesOf: (schedule: readonly (readonly number[])[]) => Float64Array;
  /** The schedule that the values of an integer programme pick. */
  scheduleOf: (values: Float64Array) => number[][];
};

/**
 * An empty pool of columns for the master programme of a level.
 *
 * @param level what is minimised
 * @param scale the programme's costs are divided by this, so that the solver's tolerances fit them
 * @returns pool
 * @range  scale > 0
 * @source Dantzig & Wolfe, Operations Research 8 (1960) 101-111
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function makeColumnPool(level: Level, scale: number): ColumnPool {
  const columns: Column[] = [];
  const indexes = new Map<string, number>();
  const uppers = uppersOf(level);
  const keyOf = (unit: number, options: readonly number[]) => `${unit}:${options.join()}`;
  return {
    size: () => columns.length,
    add: (unit, options) => {
      const key = keyOf(unit, options);
      if (indexes.has(key)) return false;
      indexes.set(key, columns.length);
      const cost = alongPath(level.widths[unit]!, level.arcs[unit]!, options) / scale;
      const entries = pathEntries(level, unit, options);
      columns.push({ unit, options: [...options], cost, entries });
      return true;
    },
    master: (isInteger) => masterOf({ columns, uppers, units: level.widths.length, scale, isInteger }),
    valuesOf: (schedule) => {
      const values = new Float64Array(columns.length);
      schedule.forEach((options, unit) => {
        values[indexes.get(keyOf(unit, options))!] = 1;
      });
      return values;
    },
    scheduleOf: (values) => {
      const schedule: number[][] = level.widths.map(() => []);
      columns.forEach(({ unit, options }, index) => {
        if (values[index]! > 1 / 2) schedule[unit] = options;
      });
      return schedule;
    },
  };
}

function masterOf(from: {
  columns: readonly Column[];
  uppers: readonly number[];
  units: number;
  scale: number;
  isInteger: boolean;
}): Master {
  const { columns, uppers, units, scale, isInteger } = from;
  const kept = rowsThatBind(columns, uppers);
  const places = new Map(kept.map((row, place) => [row, place]));
  const programme: Programme = {
    columns: columns.map(({ unit, cost, entries }) => ({
      cost,
      isInteger,
      upper: isInteger ? 1 : Number.POSITIVE_INFINITY,
      entries: [
        ...entries.flatMap(({ row, value }) => {
          const place = places.get(row);
          return place === undefined ? [] : [{ row: place, value }];
        }),
        { row: kept.length + unit, value: 1 },
      ],
    })),
    rows: [
      ...kept.map((row) => ({ lower: Number.NEGATIVE_INFINITY, upper: uppers[row]! })),
      ...Array.from({ length: units }, () => ({ lower: 1, upper: 1 })),
    ],
  };
  const dualsOf = (duals: Float64Array) => {
    const rows = new Float64Array(uppers.length);
    kept.forEach((row, place) => {
      rows[row] = Math.min(0, duals[place]!) * scale;
    });
    return { rows, units: duals.slice(kept.length).map((dual) => dual * scale) };
  };
  return { programme, dualsOf };
}

/** Rows that columns of two units enter, or one column alone breaks: no others can be broken. */
function rowsThatBind(columns: readonly Column[], uppers: readonly number[]): number[] {
  const first = new Int32Array(uppers.length).fill(-1);
  const canBind = new Uint8Array(uppers.length);
  for (const { unit, entries } of columns) {
    for (const { row, value } of entries) {
      if (first[row] === -1) first[row] = unit;
      if (first[row] !== unit || value > uppers[row]!) canBind[row] = 1;
    }
  }
  return Array.from(canBind.keys()).filter((row) => canBind[row] === 1);
}
