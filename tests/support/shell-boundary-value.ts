/** One shell with any number of tube passes as a linear boundary value problem. */
export type ShellProblem = {
  tubePasses: number;
  /** UA over the capacity rate of the tubes [-]. */
  tubeUnits: number;
  /** UA over the capacity rate of the shell [-]. */
  shellUnits: number;
  /** Whether the shell's fluid enters at the end where the tubes' does. */
  isShellInletAtTubeInlet: boolean;
};

/**
 * Effectiveness of the tubes' stream, (rise of the tubes)/(difference of the inlets), with no formula of any arrangement in it:
 * the equations dT/dx and dt/dx of shell and every pass, carried along the shell by a matrix exponential, with the
 * inlets and the returns of the tubes as boundary conditions.
 */
export function tubeEffectiveness(problem: ShellProblem): number {
  const { tubePasses, isShellInletAtTubeInlet } = problem;
  const along = exponential(balances(problem));
  const size = tubePasses + 1;
  const start = (place: number) => unit(size, place);
  const end = (place: number) => along[place]!;
  const lines = [isShellInletAtTubeInlet ? start(0) : end(0), start(1)];
  for (let pass = 1; pass < tubePasses; pass++) {
    const at = pass % 2 === 1 ? end : start;
    lines.push(difference(at(pass), at(pass + 1)));
  }
  // Shell in at 1, tubes in at 0, every return without a step: the temperatures at the tubes' inlet end follow.
  const temperatures = solve(lines, start(0));
  const out = tubePasses % 2 === 0 ? start(tubePasses) : end(tubePasses);
  return dot(out, temperatures);
}

/** d/dx of the shell (place 0) and of each pass, x from 0 to 1 along the shell. */
function balances({ tubePasses, tubeUnits, shellUnits, isShellInletAtTubeInlet }: ShellProblem): number[][] {
  const size = tubePasses + 1;
  const forward = isShellInletAtTubeInlet ? 1 : -1;
  const shell = Array.from({ length: size }, (_, place) =>
    place === 0 ? -forward * shellUnits : (forward * shellUnits) / tubePasses,
  );
  const passes = Array.from({ length: tubePasses }, (_, index) => {
    const rate = ((index % 2 === 0 ? 1 : -1) * tubeUnits) / tubePasses;
    return Array.from({ length: size }, (_, place) => (place === 0 ? rate : place === index + 1 ? -rate : 0));
  });
  return [shell, ...passes];
}

/** exp(A) by its power series on A/2ⁿ, squared n times. */
function exponential(matrix: number[][]): number[][] {
  const largest = Math.max(...matrix.map((row) => row.reduce((sum, value) => sum + Math.abs(value), 0)));
  const halvings = Math.max(0, Math.ceil(Math.log2(largest)) + 2);
  const small = matrix.map((row) => row.map((value) => value / 2 ** halvings));
  let term = matrix.map((_, place) => unit(matrix.length, place));
  let sum = term;
  for (let order = 1; order <= 20; order++) {
    term = product(term, small).map((row) => row.map((value) => value / order));
    sum = sum.map((row, i) => row.map((value, j) => value + term[i]![j]!));
  }
  for (let i = 0; i < halvings; i++) sum = product(sum, sum);
  return sum;
}

function product(a: number[][], b: number[][]): number[][] {
  return a.map((row) => b[0]!.map((_, j) => row.reduce((sum, value, k) => sum + value * b[k]![j]!, 0)));
}

/** Gaussian elimination with exchange of rows. */
function solve(lines: number[][], right: number[]): number[] {
  const rows = lines.map((line, i) => [...line, right[i]!]);
  const size = rows.length;
  for (let column = 0; column < size; column++) {
    let pivot = column;
    for (let i = column; i < size; i++) {
      if (Math.abs(rows[i]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = i;
    }
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    const base = rows[column]!;
    for (let i = 0; i < size; i++) {
      if (i === column) continue;
      const factor = rows[i]![column]! / base[column]!;
      rows[i] = rows[i]!.map((value, j) => value - factor * base[j]!);
    }
  }
  return rows.map((row, i) => row[size]! / row[i]!);
}

function unit(size: number, place: number): number[] {
  return Array.from({ length: size }, (_, i) => (i === place ? 1 : 0));
}

function difference(a: number[], b: number[]): number[] {
  return a.map((value, i) => value - b[i]!);
}

function dot(a: number[], b: number[]): number {
  return a.reduce((sum, value, i) => sum + value * b[i]!, 0);
}
