/** How people write what UCUM codes say; longer codes first, so that none is cut in two. */
const WORDS: [RegExp, string][] = [
  [/\[Btu_IT\]/g, 'Btu'],
  [/\[gal_us\]/g, 'gal'],
  [/\[lb_av\]/g, 'lb'],
  [/\[ft_i\]/g, 'ft'],
  [/\[in_i'H2O\]/g, 'inH₂O'],
  [/\[in_i\]/g, 'in'],
  [/\[psi\]/g, 'psi'],
  [/\[degF\]/g, '°F'],
  [/\[degR\]/g, '°R'],
  [/\bCel\b/g, '°C'],
  [/10\*-3/g, '10⁻³'],
  [/10\*3/g, '10³'],
  [/(?<=[a-z])2\b/g, '²'],
  [/(?<=[a-z])3\b/g, '³'],
  [/\./g, '·'],
];

/** A UCUM code as people write it: `m3/h` → m³/h, `[Btu_IT]/(h.[ft_i]2.[degF])` → Btu/(h·ft²·°F). */
export function ucumInWords(code: string): string {
  return WORDS.reduce((text, [pattern, word]) => text.replace(pattern, word), code);
}
