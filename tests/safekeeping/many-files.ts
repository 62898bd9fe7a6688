import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readingsCsv } from '../support/api';

const HOUR_MS = 3_600_000;
const FIRST = Date.parse('2010-01-01T00:00:00Z');

/** Files of hourly readings of one unit, each going on where the one before ends. */
export function writeManyFiles(
  folder: string,
  { tag, files, rows }: { tag: string; files: number; rows: number },
): string[] {
  return Array.from({ length: files }, (_, index) => {
    const path = join(folder, `${tag}-${String(index + 1).padStart(4, '0')}.csv`);
    writeFileSync(path, readingsCsv(tag, rows, new Date(FIRST + index * rows * HOUR_MS).toISOString()));
    return path;
  });
}
