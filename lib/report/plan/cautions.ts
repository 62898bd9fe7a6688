/** What is said wherever a cleaning is planned, listed or printed; one wording for all of them. */
export const CAUTION_HEAD = 'Opening, draining or chemically cleaning equipment can kill.';

export const CAUTIONS: readonly string[] = [
  'Isolate, depressurise, drain, cool, and verify each of these before opening.',
  'Check that the chemical suits the materials and what is left inside.',
  'Follow local codes, the maker’s instructions and licensed practice.',
  'A plan informs a decision; it replaces no inspection and no pressure-safety rule.',
];
