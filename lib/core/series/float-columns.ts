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
