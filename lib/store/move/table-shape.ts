import type { ClientBase } from 'pg';
import { dataTablesPostgres } from '@/prisma/migrate-postgres';

/** What a column holds; instants are kept as milliseconds on SQLite, and as times of day and date on PostgreSQL. */
export type Kind = 'integer' | 'float' | 'text' | 'boolean' | 'instant' | 'bytes';
export type Column = { name: string; kind: Kind };

/** A table of both databases: its columns, those of its key, and the column whose numbers the database gives out. */
export type TableShape = { name: string; columns: Column[]; key: string[]; counted: string | null };

const KINDS: Record<string, Kind> = {
  integer: 'integer',
  bigint: 'integer',
  'double precision': 'float',
  text: 'text',
  boolean: 'boolean',
  'timestamp without time zone': 'instant',
  bytea: 'bytes',
};

/** The tables of a migrated PostgreSQL database, each after those it refers to. It knows the kinds best; SQLite has the same. */
export async function tableShapes(client: ClientBase): Promise<TableShape[]> {
  const shapes: TableShape[] = [];
  for (const name of await dataTablesPostgres(client)) shapes.push(await shapeOf(client, name));
  const parents = await references(client);
  const sorted: TableShape[] = [];
  while (sorted.length < shapes.length) {
    const known = new Set(sorted.map(({ name }) => name));
    const next = shapes.filter(
      ({ name }) => !known.has(name) && (parents.get(name) ?? []).every((parent) => known.has(parent)),
    );
    if (next.length === 0) throw new Error('tables refer to each other in a circle');
    sorted.push(...next);
  }
  return sorted;
}

async function shapeOf(client: ClientBase, name: string): Promise<TableShape> {
  const { rows } = await client.query<{
    column: string;
    type: string;
    counted: boolean;
    place: number | null;
  }>(
    `SELECT a.attname::text AS column, format_type(a.atttypid, NULL) AS type,
       pg_get_serial_sequence(quote_ident($1), a.attname) IS NOT NULL AS counted, array_position(i.indkey, a.attnum) AS place
     FROM pg_attribute a LEFT JOIN pg_index i ON i.indrelid = a.attrelid AND i.indisprimary
     WHERE a.attrelid = quote_ident($1)::regclass AND a.attnum > 0 AND NOT a.attisdropped ORDER BY a.attnum`,
    [name],
  );
  const columns = rows.map(({ column, type }) => {
    const kind = KINDS[type];
    if (kind === undefined)
      throw new Error(`nobody knows how to move a column of type ${type} (${name}.${column})`);
    return { name: column, kind };
  });
  const inKey = rows.filter(({ place }) => place !== null).sort((one, other) => one.place! - other.place!);
  return {
    name,
    columns,
    key: inKey.map(({ column }) => column),
    counted: rows.find(({ counted }) => counted)?.column ?? null,
  };
}

/** The tables that each table refers to. */
async function references(client: ClientBase): Promise<Map<string, string[]>> {
  const { rows } = await client.query<{ child: string; parent: string }>(
    `SELECT DISTINCT c.relname::text AS child, p.relname::text AS parent FROM pg_constraint
       JOIN pg_class c ON c.oid = conrelid JOIN pg_class p ON p.oid = confrelid
     WHERE contype = 'f' AND conrelid <> confrelid AND c.relnamespace = current_schema()::regnamespace`,
  );
  const parents = new Map<string, string[]>();
  for (const { child, parent } of rows) parents.set(child, [...(parents.get(child) ?? []), parent]);
  return parents;
}
