import { readTime } from './read-time';
import { TimeScanner } from './time-scanner';

/** Longer texts are no times. */
const MAX_TIME_CHARACTERS = 60;

const scanner = new TimeScanner();

/** Whether a text is a time as some plant writes it, or a date, with or without its zone. */
export function isTimeText(text: string): boolean {
  const first = text.charCodeAt(0);
  // Asked of every cell of a file's beginning: most are settled here.
  if (first < 48 || first > 57 || text.length > MAX_TIME_CHARACTERS) return false;
  const time = readTime(text, null);
  return typeof time === 'number' || time === 'time-without-zone' || isWritten(text);
}

function isWritten(text: string): boolean {
  if (scanner.scan(text) === null) return false;
  return !Number.isNaN(scanner.day('day-first')) || !Number.isNaN(scanner.day('month-first'));
}
