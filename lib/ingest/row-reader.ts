import type { RowAt } from './chunk-builder';
import { COMMA, POINT } from './read-decimal';
import { quoted } from './set-aside';

/** Turns one record of a file into readings of a chunk, or sets it aside there. */
export type RowReader = {
  take(cells: string[], at: RowAt): void;
};

/** Groups of three digits, as spreadsheets write a thousand and more. */
const GROUPED = /^[+-]?[1-9]\d{0,2}(?:(?:,\d{3})+(?:\.\d+)?|(?:\.\d{3})+(?:,\d+)?)$/;

/** Why a cell is no number, and what to do about it. */
export function numberFault(cell: string, decimalSign: number): string {
  const other = decimalSign === POINT ? ',' : '.';
  if (/^[+-]?\d[\d.,]*$/.test(cell) && cell.includes(other)) {
    const [read, found] = decimalSign === COMMA ? ['comma', 'point'] : ['point', 'comma'];
    const fault = `${quoted(cell)} has a ${found}; numbers of this file are read with a decimal ${read} and no thousands separators`;
    const isGrouped = GROUPED.test(cell);
    return isGrouped ? `${fault}: export them without, such as ${cell.replaceAll(other, '')}` : fault;
  }
  if (/^[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?\s*[^\d\s.,:-][^\d:]{0,11}$/.test(cell)) {
    return `${quoted(cell)} has something behind its number; write units in the header, and leave out marks of quality`;
  }
  return `${quoted(cell)} is not a number; leave the cell empty where nothing was measured, or name the word in the mapping as a status word`;
}
