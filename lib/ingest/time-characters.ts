/** Codes of the characters that times are written with. */
export const [BLANK, PLUS, COMMA, DASH, POINT, SLASH, COLON] = [32, 43, 44, 45, 46, 47, 58];

/** The number of two digits; -1 where they are not there. */
export function twoDigits(text: string, at: number): number {
  const tens = text.charCodeAt(at) - 48;
  const ones = text.charCodeAt(at + 1) - 48;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : -1;
}

export function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}

/** Some platforms write a narrow or a no-break space before AM. */
export function isBlank(code: number): boolean {
  return code === BLANK || code === 0xa0 || code === 0x202f;
}

export function isLetter(code: number): boolean {
  return (code >= 97 && code <= 122) || (code >= 65 && code <= 90) || (code > 0xbf && code < 0x370);
}

export function isSeparator(code: number): boolean {
  return code === POINT || code === SLASH || code === DASH || code === BLANK;
}
