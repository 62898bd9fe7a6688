import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { Client } from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import { AppError } from '@/lib/contract/app-error';
import { createPartitions } from '../series/postgres-partitions';
import { postgresRows } from './postgres-rows';
import { type Cell, rowText } from './row-text';
import type { Target } from './side';
import type { TableShape } from './table-shape';

/**
 * A migrated PostgreSQL database that takes rows in one transaction, alone with its tables until that ends.
 *
 * @throws AppError 'conflict' where a table has a row
 */
export async function postgresTarget(
  client: Client,
  { tables, name }: { tables: readonly TableShape[]; name: string },
): Promise<Target> {
  await client.query('BEGIN');
  await client.query(
    `LOCK TABLE ${tables.map((table) => `"${table.name}"`).join(', ')} IN ACCESS EXCLUSIVE MODE`,
  );
  for (const table of tables) {
    const { rows } = await client.query(`SELECT 1 FROM "${table.name}" LIMIT 1`);
    if (rows.length > 0) throw holdsRows(name, table.name);
  }
  return {
    prepareReadings: (months) => createPartitions(client, months),
    write: (table, batches) => {
      const names = table.columns.map((column) => `"${column.name}"`).join(', ');
      const into = client.query(copyFrom(`COPY "${table.name}" (${names}) FROM STDIN`));
      // One batch ahead at most: those of photographs are large.
      return pipeline(Readable.from(linesOf(table, batches), { highWaterMark: 1 }), into);
    },
    setLastNumber: async ({ name: table, counted }, number) => {
      if (counted === null) return;
      const sequence = 'pg_get_serial_sequence(quote_ident($1), $2)::regclass';
      await client.query(`SELECT setval(${sequence}, $3)`, [table, counted, String(number)]);
    },
    rows: (table) => postgresRows(client, table),
    finish: async () => {
      await client.query('COMMIT');
      await client.query('ANALYZE');
    },
  };
}

async function* linesOf(table: TableShape, batches: AsyncIterable<Cell[][]>): AsyncGenerator<string> {
  for await (const rows of batches) yield rows.map((row) => rowText(table.columns, row)).join('');
}

function holdsRows(name: string, table: string): AppError {
  return new AppError(
    'conflict',
    `${name} holds data already (in ${table}) and is not overwritten: name an empty database`,
  );
}
