import type { SetAsideReason, SetAsideRow } from '@/lib/contract/import-report';

/** Characters kept of a row set aside: enough to find and mend it. */
export const MAX_TEXT_CHARACTERS = 500;
/** Characters of a field or cell quoted in a message. */
const MAX_QUOTED_CHARACTERS = 40;

export function setAsideRow(
  at: { line: number; text: string },
  reason: SetAsideReason,
  field: string | null,
  message: string,
): SetAsideRow {
  return { line: at.line, text: withoutNul(copied(at.text)), reason, field, message: withoutNul(message) };
}

/** Databases differ in whether a text may hold the character of no bits. */
function withoutNul(text: string): string {
  return text.includes('\0') ? text.replaceAll('\0', '\ufffd') : text;
}

/** A cell as quoted in a message. */
export function quoted(cell: string): string {
  const short = cell.length > MAX_QUOTED_CHARACTERS ? `${cell.slice(0, MAX_QUOTED_CHARACTERS)}…` : cell;
  return `"${short}"`;
}

// A slice would keep the piece of the file alive that it was cut from.
function copied(text: string): string {
  return Buffer.from(text.slice(0, MAX_TEXT_CHARACTERS), 'utf16le').toString('utf16le');
}
