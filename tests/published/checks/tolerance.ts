import { halfLastDigit } from '../../support/printed';
import { figure } from './figures';

/** How far ours may be from theirs: the rule, the scale on which differences are told, and where the rule comes from. */
export type Tolerance = {
  allowed: (theirs: number) => number;
  scale: 'absolute' | 'relative';
  words: string;
};

/** Half a unit of the last figure, with room for an exact tie. */
const HALF_UNIT = 0.5000001;

/** The same distance for every value. */
export function absolute(distance: number, why: string): Tolerance {
  return { allowed: () => distance, scale: 'absolute', words: `${figure(distance)}: ${why}` };
}

/** A share of the value. */
export function relative(share: number, why: string): Tolerance {
  return {
    allowed: (theirs) => share * Math.abs(theirs),
    scale: 'relative',
    words: `${figure(share)} relative: ${why}`,
  };
}

/** Half a unit in the last of so many significant digits, give or take a share of the value. */
export function digits(count: number, why: string, share = 0): Tolerance {
  const more = share > 0 ? ` and ${figure(share)} relative` : '';
  return {
    allowed: (theirs) => halfLastDigit(theirs, count) + share * Math.abs(theirs),
    scale: 'relative',
    words: `half the last of ${count} digits${more}: ${why}`,
  };
}

/** A share of the value, or half a unit of the last decimal that stands in the file where that is more. */
export function asWritten(share: number, why: string): Tolerance {
  return {
    allowed: (theirs) => Math.max(share * Math.abs(theirs), halfLastDecimal(theirs)),
    scale: 'relative',
    words: `${figure(share)} relative, or half the last decimal written: ${why}`,
  };
}

function halfLastDecimal(value: number): number {
  if (Number.isInteger(value)) return 0;
  const [figures, exponent] = String(value).split('e');
  const decimals = (figures!.split('.')[1] ?? '').length - Number(exponent ?? 0);
  return HALF_UNIT * 10 ** -decimals;
}

/** No difference at all: counts, codes and whether a value exists. */
export function exactly(why: string): Tolerance {
  return { allowed: () => 0, scale: 'absolute', words: `none: ${why}` };
}
