import { SENSORS } from '@/lib/core/exchange/exchanger';

/** Readings of several units as columns of equal length; NaN = not in this file. */
export type ReadingRows = {
  length: number;
  unitId: Int32Array;
  /** [ms] */
  time: Float64Array;
  /** Columns in the order of SENSORS [SI]. */
  values: Float64Array[];
  flowBasis: Uint8Array;
};

export function makeRows(capacity: number): ReadingRows {
  return {
    length: 0,
    unitId: new Int32Array(capacity),
    time: new Float64Array(capacity),
    values: SENSORS.map(() => new Float64Array(capacity)),
    flowBasis: new Uint8Array(capacity),
  };
}

/** Whether each row comes after the one before it, by unit and then by time, no key twice. */
export function isAscending({ length, unitId, time }: ReadingRows): boolean {
  for (let i = 1; i < length; i++) {
    if (unitId[i]! < unitId[i - 1]!) return false;
    if (unitId[i] === unitId[i - 1] && time[i]! <= time[i - 1]!) return false;
  }
  return true;
}

/** Rows there is room for. */
export function capacityOf({ time }: ReadingRows): number {
  return time.length;
}

/** Puts rows by unit and time; those of one unit and instant stay in the file's order. */
export function sortInto(sorted: ReadingRows, rows: ReadingRows): void {
  const order = byUnit(rows);
  sortTimes(rows, order);
  sorted.length = rows.length;
  for (let i = 0; i < rows.length; i++) {
    const from = order[i]!;
    sorted.unitId[i] = rows.unitId[from]!;
    sorted.time[i] = rows.time[from]!;
    sorted.flowBasis[i] = rows.flowBasis[from]!;
  }
  rows.values.forEach((column, s) => {
    const target = sorted.values[s]!;
    for (let i = 0; i < rows.length; i++) target[i] = column[order[i]!]!;
  });
}

/** Numbers of the rows, unit by unit, each unit's in the order of the file: by counting, which takes no comparisons. */
function byUnit({ length, unitId }: ReadingRows): Uint32Array {
  const counts = new Map<number, number>();
  for (let i = 0; i < length; i++) counts.set(unitId[i]!, (counts.get(unitId[i]!) ?? 0) + 1);
  const places = new Map<number, number>();
  let place = 0;
  for (const unit of [...counts.keys()].sort((a, b) => a - b)) {
    places.set(unit, place);
    place += counts.get(unit)!;
  }
  const order = new Uint32Array(length);
  for (let i = 0; i < length; i++) {
    const at = places.get(unitId[i]!)!;
    order[at] = i;
    places.set(unitId[i]!, at + 1);
  }
  return order;
}

/** Brings each unit's rows into the order of time; most files have them so already. */
function sortTimes({ length, unitId, time }: ReadingRows, order: Uint32Array): void {
  for (let from = 0; from < length; ) {
    const unit = unitId[order[from]!];
    let to = from + 1;
    let isSorted = true;
    for (; to < length && unitId[order[to]!] === unit; to++)
      if (time[order[to]!]! < time[order[to - 1]!]!) isSorted = false;
    if (!isSorted) order.subarray(from, to).sort((a, b) => time[a]! - time[b]! || a - b);
    from = to;
  }
}
