import Database from 'better-sqlite3';
import { AppError } from '@/lib/contract/app-error';
import type { Cell } from './row-text';
import type { Target } from './side';
import { sqliteRows } from './sqlite-source';
import type { Column, TableShape } from './table-shape';

/** A freshly migrated SQLite file that takes rows. */
export function sqliteTarget(path: string): Target & { close(): void } {
  const database = new Database(path);
  database.pragma('foreign_keys = OFF');
  database.exec('BEGIN IMMEDIATE');
  return {
    prepareReadings: async () => {},
    write: async (table, batches) => {
      const insert = database.prepare(insertInto(table));
      for await (const rows of batches) {
        for (const row of rows) insert.run(...row.map((value, c) => stored(table.columns[c]!, value)));
      }
    },
    setLastNumber: async ({ name }, number) => {
      const { changes } = database
        .prepare('UPDATE sqlite_sequence SET seq = ? WHERE name = ?')
        .run(number, name);
      if (changes === 0)
        database.prepare('INSERT INTO sqlite_sequence (name, seq) VALUES (?, ?)').run(name, number);
    },
    rows: (table) => sqliteRows(database, table),
    finish: async () => {
      const dangling = database.pragma('foreign_key_check') as { table: string; parent: string }[];
      if (dangling.length > 0) {
        const { table, parent } = dangling[0]!;
        throw new AppError('database-unusable', `a row of ${table} refers to no row of ${parent}`);
      }
      database.exec('COMMIT');
      database.pragma('wal_checkpoint(TRUNCATE)');
    },
    close: () => void database.close(),
  };
}

function insertInto({ name, columns }: TableShape): string {
  const names = columns.map((column) => `"${column.name}"`).join(', ');
  return `INSERT INTO "${name}" (${names}) VALUES (${columns.map(() => '?').join(', ')})`;
}

function stored({ kind }: Column, value: Cell): bigint | number | string | Buffer | null {
  if (value === null || typeof value === 'number') return value;
  if (typeof value === 'boolean') return value ? 1 : 0;
  return kind === 'integer' || kind === 'instant' ? BigInt(value as string) : value;
}
