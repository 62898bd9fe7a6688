export const POINT = 46;
export const COMMA = 44;

const POWERS_OF_TEN = Array.from({ length: 16 }, (_, power) => 10 ** power);
/** Digits that a double holds exactly whatever they are. */
const EXACT_DIGITS = 15;
const DECIMAL = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/;

/**
 * The number written in a text, or NaN where that is no plain decimal number.
 * Stricter than `Number`: no hexadecimal, no Infinity, no thousands separators, one decimal sign only.
 */
export function readDecimal(text: string, decimalSign: number): number {
  const first = text.charCodeAt(0);
  let at = first === 45 || first === 43 ? 1 : 0;
  let digits = 0;
  let mantissa = 0;
  let pointAt = -1;
  for (; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code >= 48 && code <= 57) {
      mantissa = mantissa * 10 + (code - 48);
      digits++;
    } else if (code === decimalSign && pointAt < 0) pointAt = at;
    else break;
  }
  if (at < text.length || digits > EXACT_DIGITS) return readSlowly(text, decimalSign);
  if (digits === 0) return Number.NaN;
  // Both are exact doubles, so that one division rounds as `Number` does.
  const size = pointAt < 0 ? mantissa : mantissa / POWERS_OF_TEN[text.length - pointAt - 1]!;
  return first === 45 ? -size : size;
}

/** Exponents, more digits than are exact, and the minus sign that typesetters use. */
function readSlowly(written: string, decimalSign: number): number {
  const sign = written.replace(/^\u2212/, '-');
  const plain = decimalSign === COMMA ? swapSigns(sign) : sign;
  if (!DECIMAL.test(plain)) return Number.NaN;
  const value = Number(plain);
  return Number.isFinite(value) ? value : Number.NaN;
}

// A point in a decimal-comma file could be a thousands separator: it becomes the comma that no number has.
function swapSigns(text: string): string {
  return text.replace(/[.,]/g, (found) => (found === ',' ? '.' : ','));
}
