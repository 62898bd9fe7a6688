const PLAIN: Record<string, string> = {
  Cel: '°C',
  C: '°C',
  F: '°F',
  '[degF]': '°F',
  '[gal_us]/min': 'gal/min',
  '[lb_av]/h': 'lb/h',
  '[psi]': 'psi',
  'm3/h': 'm³/h',
};

/** A unit of measure as people write it, for reasons. */
export function plainUnit(code: string): string {
  return PLAIN[code] ?? code;
}
