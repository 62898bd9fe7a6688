import type Database from 'better-sqlite3';
import { dataTables } from '@/prisma/migrate';

type Column = { name: string; type: string; notnull: number; pk: number };
type Reference = { table: string; from: string; to: string };

/** Rows put into each table. */
export const ROWS = 4;
const FIRST_INSTANT = 1_700_000_000_000;

/**
 * Puts rows into every table of whatever schema a database has: values by the type of each column, references to rows that
 * are there, and in the last row nothing wherever nothing may stand.
 */
export function fillTables(database: Database.Database): void {
  database.pragma('foreign_keys = OFF');
  for (const table of dataTables(database)) fillTable(database, table);
  const dangling = database.pragma('foreign_key_check') as unknown[];
  if (dangling.length > 0)
    throw new Error(`the filler left references to nothing: ${JSON.stringify(dangling)}`);
}

function fillTable(database: Database.Database, table: string): void {
  const columns = database.pragma(`table_info("${table}")`) as Column[];
  const references = database.pragma(`foreign_key_list("${table}")`) as Reference[];
  const names = columns.map(({ name }) => `"${name}"`).join(', ');
  const marks = columns.map(() => '?').join(', ');
  const insert = database.prepare(`INSERT INTO "${table}" (${names}) VALUES (${marks})`);
  for (let row = 1; row <= ROWS; row++) {
    insert.run(
      ...columns.map((column) => {
        const reference = references.find(({ from }) => from === column.name);
        if (row === ROWS && column.notnull === 0 && column.pk === 0) return null;
        return reference === undefined ? valueFor(column, row) : keyOf(database, reference, row);
      }),
    );
  }
}

/** The key of a row, the same whichever table is filled first. */
function keyOf(database: Database.Database, { table, to }: Reference, row: number): number | string {
  const columns = database.pragma(`table_info("${table}")`) as Column[];
  return valueFor(columns.find(({ name }) => name === to)!, row) as number | string;
}

function valueFor({ name, type, pk }: Column, row: number): number | string | Buffer {
  if (type === 'TEXT') return `${name} ${row} – “é”`;
  if (type === 'REAL') return row + 1 / 3;
  if (type === 'BLOB') return Buffer.from([0, row, 255]);
  if (type === 'BOOLEAN') return row % 2;
  if (type === 'DATETIME' || (type === 'BIGINT' && pk > 0)) return FIRST_INSTANT + row;
  if (type === 'INTEGER' || type === 'BIGINT') return row;
  throw new Error(`the filler knows no value of type ${type} (column ${name})`);
}

/** Every row of every table, by table. */
export function contentOf(database: Database.Database): Record<string, Record<string, unknown>[]> {
  const tables = dataTables(database).map((table) => {
    const key = (database.pragma(`table_info("${table}")`) as Column[])
      .filter(({ pk }) => pk > 0)
      .map(({ name }) => `"${name}"`)
      .join(', ');
    const rows = database
      .prepare<[], Record<string, unknown>>(`SELECT * FROM "${table}" ORDER BY ${key || 'rowid'}`)
      .all();
    return [table, rows] as const;
  });
  return Object.fromEntries(tables);
}

/** What a schema consists of, without what the planner keeps for itself. */
export function schemaOf(database: Database.Database): unknown[] {
  return database
    .prepare(
      `SELECT type, name, tbl_name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER BY type, name`,
    )
    .all();
}
