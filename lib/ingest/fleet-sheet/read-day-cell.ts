import type { CellReading } from './read-cell';

type Given = string | number | boolean | { dateText: string };

const DAY = /^\d{4}-\d\d-\d\d$/;
const MOMENT = /^(\d{4}-\d\d-\d\d)[T ](\d\d:\d\d(?::\d\d(?:[.,]\d{1,3})?)?)$/;
const INSTANT = /^\d{4}-\d\d-\d\d[T ]\d\d:\d\d(?::\d\d(?:\.\d+)?)?(?:Z|[+-]\d\d:?\d\d)$/i;

/** A day, from a cell formatted as a date or written so. */
export function readDayCell(given: Given): CellReading {
  const text = textOf(given);
  if (DAY.test(text)) return { value: text };
  const moment = MOMENT.exec(text);
  if (moment !== null && typeof given === 'object') return { value: moment[1]! };
  return { fault: `"${text.slice(0, 60)}" is no day; write it as 2026-05-31, or format the cell as a date` };
}

/**
 * A moment: ISO 8601 with its offset as it is; a local time, or a cell formatted as a date, as `{ local }`, to be taken in
 * the zone of the site once that is known.
 */
export function readTimeCell(given: Given): CellReading {
  const text = textOf(given);
  if (INSTANT.test(text)) return { value: isoInstant(text) };
  const moment = MOMENT.exec(text);
  if (moment !== null) return { value: { local: `${moment[1]}T${moment[2]!.replace(',', '.')}` } };
  if (DAY.test(text)) return { value: { local: `${text}T00:00` } };
  return {
    fault: `"${text.slice(0, 60)}" is no time; write it as 2026-05-31 08:00 (local time of the site), or format the cell as a date`,
  };
}

/** With T, seconds and a colon in the offset, as the contract writes instants; one that is complete stays as it is. */
function isoInstant(text: string): string {
  return text
    .replace(' ', 'T')
    .replace(/z$/, 'Z')
    .replace(/T(\d\d:\d\d)(?=[Z+-])/, 'T$1:00')
    .replace(/([+-]\d\d)(\d\d)$/, '$1:$2');
}

function textOf(given: Given): string {
  return typeof given === 'object' ? given.dateText : String(given).trim();
}
