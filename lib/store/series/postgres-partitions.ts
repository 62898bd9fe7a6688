import type { ClientBase } from 'pg';
import { DAY_MS } from '@/lib/time/calendar-day';
import { firstDayOf, monthOf } from './daily-block';

/** A table of readings of one month (UTC) within `reading`. */
type Partition = { name: string; from: number; to: number };

/** Months since January 1970 that instants [ms] lie in. */
export function monthsOf(times: Iterable<number>): Set<number> {
  const months = new Set<number>();
  let [from, to] = [0, 0];
  for (const time of times) {
    // Most readings lie in the month of the one before.
    if (time >= from && time < to) continue;
    const month = monthOf(Math.floor(time / DAY_MS));
    months.add(month);
    ({ from, to } = partitionOf(month));
  }
  return months;
}

function partitionOf(month: number): Partition {
  const from = firstDayOf(month) * DAY_MS;
  const date = new Date(from);
  const year = String(Math.abs(date.getUTCFullYear())).padStart(4, '0');
  const own = String(date.getUTCMonth() + 1).padStart(2, '0');
  const name = `reading_${date.getUTCFullYear() < 0 ? 'before_' : ''}${year}_${own}`;
  return { name, from, to: firstDayOf(month + 1) * DAY_MS };
}

/**
 * Makes the tables of months that are not there yet, in the caller's transaction. Each is made by itself and then attached, which
 * unlike making it in its place keeps nobody from reading.
 *
 * @param months since January 1970
 */
export async function createPartitions(client: ClientBase, months: Iterable<number>): Promise<void> {
  const partitions = [...months].sort((a, b) => a - b).map(partitionOf);
  const { rows } = await client.query<{ name: string }>(
    'SELECT name FROM unnest($1::text[]) AS name WHERE to_regclass(name) IS NULL',
    [partitions.map(({ name }) => name)],
  );
  const missing = new Set(rows.map(({ name }) => name));
  for (const { name, from, to } of partitions) {
    if (!missing.has(name)) continue;
    await client.query(
      `CREATE TABLE ${name} (LIKE reading INCLUDING ALL);
       ALTER TABLE reading ATTACH PARTITION ${name} FOR VALUES FROM (${from}) TO (${to})`,
    );
  }
}

/** Names of the tables of months, the newest first. */
export async function partitionNames(client: Pick<ClientBase, 'query'>): Promise<string[]> {
  const { rows } = await client.query<{ name: string }>(
    `SELECT oid::regclass::text AS name FROM pg_class JOIN pg_inherits ON inhrelid = oid
     WHERE inhparent = 'reading'::regclass
     ORDER BY substring(pg_get_expr(relpartbound, oid) FROM '-?[0-9]+')::bigint DESC`,
  );
  return rows.map(({ name }) => name);
}
