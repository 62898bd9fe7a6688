/** A linear or mixed-integer programme as a matrix: minimise cost·x with lower ≤ A·x ≤ upper, x ≥ 0. */
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
};

/** `duals` of the rows only for a programme without integers: change of the cost per unit of the row's bound. */
export type ProgrammeSolution = {
  status: 'optimal' | 'within-gap' | 'time-limit' | 'infeasible';
  cost: number;
  /** Lower bound of the cost. */
  bound: number;
  values: Float64Array;
  duals: Float64Array | null;
};

/** The solver, handed in: the core knows none. */
export type SolveProgramme = (programme: Programme, options: ProgrammeOptions) => Promise<ProgrammeSolution>;
