/** Columns of a stored result that an analysis writes, behind the number of the unit. */
export const RESULT_COLUMNS = [
  'as_of',
  'computed_at',
  'method_version',
  'unit_version',
  'nominal',
  'basis',
  'result',
  'trend',
  'telling',
  'summary',
] as const;
