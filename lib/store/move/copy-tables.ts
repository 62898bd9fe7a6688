import { createHash } from 'node:crypto';
import { AppError } from '@/lib/contract/app-error';
import { type Cell, rowText } from './row-text';
import type { Source, Target } from './side';
import type { TableShape } from './table-shape';

/** A table that was moved: how many rows, and SHA-256 over all of them in the order of their key, in hexadecimal. */
export type MovedTable = { table: string; rows: number; digest: string };

export type MoveProgress = (table: string, rows: number) => void;

/**
 * Copies every table, reads each back where it went, and compares: row by row, to the last bit of every value.
 *
 * @throws AppError 'database-unusable' naming the first row that did not arrive as it was
 */
export async function copyTables(
  { source, target, tables }: { source: Source; target: Target; tables: readonly TableShape[] },
  onProgress: MoveProgress = () => {},
): Promise<MovedTable[]> {
  await target.prepareReadings(await source.readingMonths());
  const moved: MovedTable[] = [];
  for (const table of tables) {
    const sent = tally(table, (rows) => onProgress(table.name, rows));
    await target.write(table, sent.through(source.rows(table))).catch((error) => refuseRow(table, error));
    const arrived = tally(table);
    for await (const _ of arrived.through(target.rows(table)));
    const [before, after] = [sent.result(), arrived.result()];
    if (before.digest !== after.digest || before.rows !== after.rows)
      throw await firstDifference(table, source, target);
    moved.push(before);
  }
  // PostgreSQL does not take these back with the transaction, so they come last.
  for (const table of tables) await carryNumber(table, source, target);
  return moved;
}

/** Classes of the server's errors about a row: its values, and what must hold between it and others. */
const OF_A_ROW = /^2[23]/;

/** @throws AppError where it was a row that could not be taken */
function refuseRow({ name }: TableShape, error: unknown): never {
  const { code, message } = error as { code?: unknown; message?: unknown };
  if (typeof code !== 'string' || !OF_A_ROW.test(code)) throw error;
  throw new AppError(
    'database-unusable',
    `a row of ${name} cannot be taken there (${message}), so nothing was moved: npx cleanby verify says what is wrong with ` +
      'the database it comes from',
  );
}

/** Counts and digests the rows that pass through. */
function tally(table: TableShape, onRows: (rows: number) => void = () => {}) {
  const hash = createHash('sha256');
  let rows = 0;
  return {
    through: async function* (batches: AsyncIterable<Cell[][]>): AsyncGenerator<Cell[][]> {
      for await (const batch of batches) {
        for (const row of batch) hash.update(rowText(table.columns, row));
        rows += batch.length;
        onRows(rows);
        yield batch;
      }
    },
    result: (): MovedTable => ({ table: table.name, rows, digest: hash.digest('hex') }),
  };
}

/** Numbers of rows that are gone are not given out again. */
async function carryNumber(table: TableShape, source: Source, target: Target): Promise<void> {
  if (table.counted === null) return;
  const last = await source.lastNumber(table);
  if (last !== null && last > 0n) await target.setLastNumber(table, last);
}

async function firstDifference(table: TableShape, source: Source, target: Target): Promise<AppError> {
  const theirs = lines(table, target.rows(table));
  for await (const line of lines(table, source.rows(table))) {
    const { value } = await theirs.next();
    if (line !== value) return notAsItWas(table, line);
  }
  return notAsItWas(table, 'a row too many');
}

async function* lines(table: TableShape, batches: AsyncIterable<Cell[][]>): AsyncGenerator<string> {
  for await (const batch of batches) for (const row of batch) yield rowText(table.columns, row);
}

/** Characters of a row that a message shows. */
const SHOWN = 120;

function notAsItWas({ name }: TableShape, line: string): AppError {
  return new AppError(
    'database-unusable',
    `a row of ${name} did not arrive as it was (${line.slice(0, SHOWN).trim()}): nothing was moved`,
  );
}
