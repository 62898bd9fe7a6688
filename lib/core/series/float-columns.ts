/**
 * Columns of equal length with every value NaN, in one piece of memory: pieces of their own would take several times as long
 * to get, and to be rid of.
 *
 * @param names  of the columns
 * @param length of each [-]
 * @returns columns by name
 * @range  any
 * @source none: room only
 * @check  tests/core/series/float-columns.test.ts
 */
export function floatColumns<Name extends string>(
  names: readonly Name[],
  length: number,
): Record<Name, Float64Array> {
  const whole = new Float64Array(names.length * length).fill(Number.NaN);
  const columns = {} as Record<Name, Float64Array>;
  for (let k = 0; k < names.length; k++) columns[names[k]!] = whole.subarray(k * length, (k + 1) * length);
  return columns;
}

/**
 * The first rows of some columns, for those that were made longer than what was found for them.
 *
 * @param columns by name, of equal length
 * @param count   rows [-]
 * @returns views of the same memory
 * @range  0 ≤ count ≤ length
 * @source none: room only
 * @check  tests/core/series/float-columns.test.ts
 */
export function firstRows<Name extends string>(
  columns: Record<Name, Float64Array>,
  count: number,
): Record<Name, Float64Array> {
  // A copy whose columns are replaced: names added one by one would make it slow to read from.
  const first = { ...columns };
  for (const name in columns) first[name] = columns[name].subarray(0, count);
  return first;
}
