import { COMMA, POINT, readDecimal } from '../read-decimal';

/** `1,234` may be a thousand or little more than one. */
const PERHAPS_THOUSANDS = /^[+\-\u2212]?[1-9]\d{0,2}(,\d{3})+$/;

/**
 * A number as somebody typed it into a cell of text, with a point or a comma as decimal sign; or what is wrong with it.
 *
 * @param decimalComma whether the whole file is written so; null where nothing says
 */
export function readSheetNumber(
  text: string,
  decimalComma: boolean | null,
): { value: number } | { fault: string } {
  if (text.includes(',') && text.includes('.')) {
    return { fault: `"${text}" has a point and a comma; write it without signs between thousands` };
  }
  if (decimalComma === true && text.includes('.')) {
    return {
      fault: `"${text}" has a point in a file with decimal commas; write a comma, and nothing between thousands`,
    };
  }
  if (decimalComma === null && PERHAPS_THOUSANDS.test(text)) {
    return {
      fault: `"${text}" may be ${text.replaceAll(',', '')} or ${text.replace(',', '.')}; write it as a number`,
    };
  }
  const value = readDecimal(text, text.includes(',') ? COMMA : POINT);
  return Number.isNaN(value) ? { fault: notANumber(text) } : { value };
}

/** What is wrong with a text where a number is due, and what to do about it. */
export function notANumber(text: string): string {
  return `"${text.slice(0, 60)}" is no number; write a number, such as 12.5, or empty the cell`;
}
