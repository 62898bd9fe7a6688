/** A linear or mixed-integer programme as a matrix: minimise cost·x with lower ≤ A·x ≤ upper, 0 ≤ x ≤ upper. */
export type Programme = {
  /** Cost, upper bound and entries (row, coefficient) of each column. */
  columns: { cost: number; upper: number; isInteger: boolean; entries: { row: number; value: number }[] }[];
  /** Bounds of each row; −Infinity or Infinity where open. */
  rows: { lower: number; upper: number }[];
};

export type ProgrammeOptions = {
  /** [s] */
  timeLimit: number;
  /** Relative gap at which an integer programme may stop [-]. */
  gap: number;
  /** Values of a solution known already, which an integer programme starts from; null: none. */
  start: Float64Array | null;
};

/**
 * `values` are null where none were found in time; `duals` of the rows (change of the cost per unit of the row's bound) only
 * for a programme without integers that was solved.
 */
export type ProgrammeSolution = {
  status: 'optimal' | 'within-gap' | 'time-limit' | 'infeasible';
  cost: number;
  /** Lower bound of the cost. */
  bound: number;
  values: Float64Array | null;
  duals: Float64Array | null;
};

/** The solver, handed in: the core knows none. */
export type SolveProgramme = (programme: Programme, options: ProgrammeOptions) => Promise<ProgrammeSolution>;
