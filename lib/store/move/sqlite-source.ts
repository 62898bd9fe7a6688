import type Database from 'better-sqlite3';
import { AppError } from '@/lib/contract/app-error';
import { BatchSize } from '../postgres-cursor';
import { monthOf } from '../series/daily-block';
import type { Cell } from './row-text';
import { READING_DAYS, type Source } from './side';
import type { Column, Kind, TableShape } from './table-shape';

type Value = bigint | number | string | Buffer | null;

/**
 * The rows of an SQLite file, as the transaction of its connection sees them; it may be written to meanwhile.
 *
 * @param texts counts the texts of which a NUL was replaced
 */
export function sqliteSource(database: Database.Database, texts: { replaced: number }): Source {
  return {
    rows: (table) => sqliteRows(database, table, texts),
    lastNumber: async ({ name }) =>
      database
        .prepare<[string], bigint>('SELECT seq FROM sqlite_sequence WHERE name = ?')
        .safeIntegers()
        .pluck()
        .get(name) ?? null,
    readingMonths: async () => {
      const days = database.prepare<[], number>(READING_DAYS).pluck().all();
      return [...new Set(days.map(monthOf))];
    },
  };
}

/** Every row of a table in the order of its key. NULs in texts are replaced where somebody counts them. */
export async function* sqliteRows(
  database: Database.Database,
  { name, columns, key }: TableShape,
  texts: { replaced: number } = { replaced: 0 },
): AsyncGenerator<Cell[][]> {
  const quoted = (names: readonly string[]) => names.map((column) => `"${column}"`).join(', ');
  const statement = database
    .prepare<[], Value[]>(
      `SELECT ${quoted(columns.map((column) => column.name))} FROM "${name}" ORDER BY ${quoted(key)}`,
    )
    .safeIntegers()
    .raw();
  const size = new BatchSize();
  let batch: Cell[][] = [];
  for (const values of statement.iterate()) {
    const row = values.map((value, c) => cellOf(columns[c]!, value, { table: name, texts }));
    size.note(row);
    batch.push(row);
    if (batch.length < size.rows) continue;
    yield batch;
    batch = [];
  }
  if (batch.length > 0) yield batch;
}

type Place = { table: string; texts: { replaced: number } };

function cellOf({ name, kind }: Column, value: Value, { table, texts }: Place): Cell {
  if (value === null) return null;
  const cell = READ[kind](value);
  if (cell === undefined) {
    throw new AppError(
      'database-unusable',
      `${table}.${name} holds ${String(value).slice(0, 40)}, which is not what belongs there: npx cleanby verify says more`,
    );
  }
  if (typeof cell !== 'string' || kind !== 'text' || !cell.includes('\0')) return cell;
  texts.replaced++;
  return cell.replaceAll('\0', '\uFFFD');
}

const whole = (value: Value) => (typeof value === 'bigint' ? String(value) : undefined);

/** SQLite keeps any value in any column: what does not belong there is not moved. */
const READ: Record<Kind, (value: Value) => Cell | undefined> = {
  integer: whole,
  instant: whole,
  float: (value) => (typeof value === 'number' || typeof value === 'bigint' ? Number(value) : undefined),
  text: (value) => (typeof value === 'string' ? value : undefined),
  boolean: (value) => (value === 0n || value === 1n ? value === 1n : undefined),
  bytes: (value) => (Buffer.isBuffer(value) ? value : undefined),
};
