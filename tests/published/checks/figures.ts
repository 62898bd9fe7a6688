import { differenceOf, NOISE, type Row } from './check';
import type { Tolerance } from './tolerance';

/** Digits that are shown of a figure of ours; the last bits of a machine are no part of it. */
const [LEAST_DIGITS, MOST_DIGITS] = [4, 9];
/** Of theirs so many: more is a machine's own number. */
const AS_WRITTEN = 11;
/** Where iterations end, one version of Node differs from the next below this power of ten. */
const FINEST_ITERATION = -7;
/** Below this, and from the second on, a power of ten reads better than zeros. */
const [SMALL, LARGE] = [1e-3, 1e7];

const isNone = (value: number | null): value is null => value === null || Number.isNaN(value);

/** A number to so many digits, without zeros at its end. */
export function figure(value: number, digits = AS_WRITTEN): string {
  const rounded = Number(value.toPrecision(digits));
  const size = Math.abs(rounded);
  return size !== 0 && (size < SMALL || size >= LARGE) ? rounded.toExponential() : String(rounded);
}

export function theirFigure({ theirs }: Row): string {
  return isNone(theirs) ? 'none' : figure(theirs);
}

function significantDigits(written: string): number {
  return written.replace(/e.*$/, '').replace(/[-.]/g, '').replace(/^0+/, '').length;
}

/**
 * Ours to one digit more than theirs has, or to the first that differs; as theirs where only noise is between them. Of an
 * iteration to the digits that agree.
 */
export function ourFigure(row: Row, tolerance: Tolerance, isIterated: boolean): string {
  const { theirs, ours } = row;
  if (isNone(ours)) return 'none';
  const written = theirFigure(row);
  if (differenceOf(row, tolerance) < NOISE && !isIterated) return written;
  const agreeing = isNone(theirs) || theirs === 0 ? 0 : -powerAbove(Math.abs(ours / theirs - 1));
  const digits = isIterated
    ? Math.min(agreeing, -finestPower(row, tolerance))
    : Math.max(significantDigits(written) + 1, agreeing + 2);
  return figure(ours, Math.min(Math.max(digits, LEAST_DIGITS), MOST_DIGITS));
}

/** Exponent of the power of ten at or above a difference. */
function powerAbove(difference: number): number {
  return Math.ceil(Math.log10(difference));
}

/** The finest power of ten that is told of an iteration: a tenth of the tolerance, where that is finer still. */
function finestPower({ theirs }: Row, { allowed, scale }: Tolerance): number {
  if (isNone(theirs) || theirs === 0) return FINEST_ITERATION;
  const share = allowed(theirs) / (scale === 'relative' ? Math.abs(theirs) : 1);
  return Math.min(FINEST_ITERATION, powerAbove(share / 10));
}

/** The difference of a row to two digits; of an iteration the power of ten above it. */
export function differenceFigure(row: Row, tolerance: Tolerance, isIterated: boolean): string {
  const difference = differenceOf(row, tolerance);
  if (isIterated) return `< 1e${Math.max(powerAbove(difference), finestPower(row, tolerance))}`;
  return difference < NOISE ? `< ${figure(NOISE)}` : figure(difference, 2);
}
