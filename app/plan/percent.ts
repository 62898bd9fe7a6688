/** A share of the axis as a length in CSS. */
export function percent(share: number): string {
  return `${(share * 100).toFixed(2)}%`;
}
