import type { Client } from 'pg';
import { monthOf } from '../series/daily-block';
import { postgresRows } from './postgres-rows';
import { READING_DAYS, type Source } from './side';

/** The rows of a PostgreSQL database, as the client's transaction sees them; it may be written to meanwhile. */
export function postgresSource(client: Client): Source {
  return {
    rows: (table) => postgresRows(client, table),
    lastNumber: async ({ name, counted }) => {
      if (counted === null) return null;
      // A sequence has no past of its own: where rows are newer than this view, their numbers count as given out.
      const { rows } = await client.query<{ number: string | null }>(
        'SELECT pg_sequence_last_value(pg_get_serial_sequence(quote_ident($1), $2)::regclass)::text AS number',
        [name, counted],
      );
      return rows[0]!.number === null ? null : BigInt(rows[0]!.number);
    },
    readingMonths: async () => {
      const { rows } = await client.query<{ day: string }>(READING_DAYS);
      return [...new Set(rows.map(({ day }) => monthOf(Number(day))))];
    },
  };
}
