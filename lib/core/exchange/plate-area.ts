/** The first and the last plate are wetted on one side only and transfer nothing. */
const END_PLATES = 2;

/**
 * Effective heat-transfer area of a plate exchanger: A = (N − 2)·a.
 *
 * @param count    plates in the pack, end plates included [-], at least 3 for an answer
 * @param areaEach developed area of one plate [m²], > 0
 * @returns area [m²]; NaN for fewer than 3 plates or an area that is not > 0
 * @range any
 * @source common practice; Kakaç, Liu & Pramuanjaroenkij, Heat Exchangers, 3rd ed. 2012, ch. 11 (effective number of plates)
 * @check tests/core/exchange/geometry.test.ts
 */
export function plateArea(count: number, areaEach: number): number {
  if (!(count > END_PLATES && areaEach > 0)) return Number.NaN;
  return (count - END_PLATES) * areaEach;
}

/**
 * Channels between the plates of a plate exchanger, both streams together: N − 1.
 *
 * @param count plates in the pack, end plates included [-], at least 3 for an answer
 * @returns channels [-]; NaN for fewer than 3 plates
 * @range any
 * @source common practice; Kakaç, Liu & Pramuanjaroenkij, Heat Exchangers, 3rd ed. 2012, ch. 11
 * @check tests/core/exchange/geometry.test.ts
 */
export function plateChannels(count: number): number {
  return count > END_PLATES ? count - 1 : Number.NaN;
}
