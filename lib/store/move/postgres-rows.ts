import type { ClientBase } from 'pg';
import { cursorRows } from '../postgres-cursor';
import type { Cell } from './row-text';
import type { Column, TableShape } from './table-shape';

/** Every row of a table in the order of its key: the client must be in a transaction. */
export function postgresRows(
  client: ClientBase,
  { name, columns, key }: TableShape,
): AsyncGenerator<Cell[][]> {
  const order = key.map((column) => `"${name}"."${column}"`).join(', ');
  return cursorRows(client, `SELECT ${columns.map(selected).join(', ')} FROM "${name}" ORDER BY ${order}`);
}

/** Whole numbers as their digits, instants as milliseconds since 1970. */
function selected({ name, kind }: Column): string {
  if (kind === 'integer') return `"${name}"::text`;
  if (kind === 'instant') return `(extract(epoch FROM "${name}") * 1000)::bigint::text`;
  return `"${name}"`;
}
