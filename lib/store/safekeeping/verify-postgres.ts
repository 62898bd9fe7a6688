import type { Client } from 'pg';
import { appliedPostgres } from '@/prisma/migrate-postgres';
import { migrationsFolder } from '@/prisma/migration-files';
import { connectedTo } from '../connected-to';
import { databaseName } from '../database-path';
import { cursorRows } from '../postgres-cursor';
import type { Finding, Invariant, Question } from './finding';
import { INVARIANTS } from './invariants';
import { type Check, checkOf, migrationsFinding, NOT_HERE, type Verification } from './verify-sqlite';

/**
 * Looks a database on a server through, as it stands at one instant and without changing it: its references, its migrations,
 * and what must hold between its tables. Its pages are the server's own to check (pg_amcheck, data checksums).
 *
 * @throws AppError 'database-unusable' where it cannot be looked at
 */
export function verifyPostgres(databaseUrl: string): Promise<Verification> {
  return connectedTo(databaseUrl, async (client) => {
    await client.query('BEGIN TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY');
    const applied = await appliedPostgres(client);
    const checks: Check[] = [
      checkOf('integrity', await integrityOf(client)),
      checkOf('references', await referencesOf(client)),
      checkOf('migrations', migrationsFinding(applied, migrationsFolder('postgres'))),
    ];
    for (const { name, tables, look } of INVARIANTS) {
      const isHere = await hasTables(client, tables);
      checks.push(checkOf(name, isHere ? await answered(client, look) : NOT_HERE));
    }
    return {
      file: databaseName(databaseUrl),
      migrations: applied.size,
      checks,
      problems: checks.reduce((sum, { wrong }) => sum + wrong, 0),
    };
  });
}

async function answered(client: Client, look: Invariant['look']): Promise<Finding> {
  const { questions, finding } = look();
  for (const question of questions) await ask(client, question);
  return finding();
}

async function ask(client: Client, { sql, take }: Question): Promise<void> {
  // The names of the columns come with an answer of no rows, the rows themselves by a cursor.
  const { fields } = await client.query(`SELECT * FROM (${sql}) AS asked LIMIT 0`);
  for await (const rows of cursorRows(client, sql)) {
    for (const row of rows) take(Object.fromEntries(fields.map(({ name }, c) => [name, row[c]])));
  }
}

/** What the server itself says of its indexes and constraints. */
async function integrityOf(client: Client): Promise<Finding> {
  const { rows } = await client.query<{ problem: string }>(
    `SELECT 'index ' || indexrelid::regclass || ' is not valid' AS problem FROM pg_index
       JOIN pg_class ON pg_class.oid = indrelid
     WHERE relnamespace = current_schema()::regnamespace AND NOT (indisvalid AND indisready)
     UNION ALL
     SELECT 'constraint ' || conname || ' is not valid' FROM pg_constraint
     WHERE connamespace = current_schema()::regnamespace AND NOT convalidated`,
  );
  return {
    looked: 'every index and constraint, as the server has them',
    problems: rows.map(({ problem }) => problem),
  };
}

type Reference = { name: string; child: string; parent: string; join: string; given: string };

/** Looks for what the server keeps from happening, and a copy made without its constraints does not. */
async function referencesOf(client: Client): Promise<Finding> {
  const { rows: references } = await client.query<Reference>(
    `SELECT conname AS name, conrelid::regclass::text AS child, confrelid::regclass::text AS parent,
       string_agg(format('child.%I = parent.%I', c.attname, p.attname), ' AND ') AS join,
       string_agg(format('child.%I IS NOT NULL', c.attname), ' AND ') AS given
     FROM pg_constraint
       CROSS JOIN unnest(conkey, confkey) AS pair (own, other)
       JOIN pg_attribute c ON c.attrelid = conrelid AND c.attnum = own
       JOIN pg_attribute p ON p.attrelid = confrelid AND p.attnum = other
     WHERE contype = 'f' AND connamespace = current_schema()::regnamespace
     GROUP BY conname, conrelid, confrelid ORDER BY conname`,
  );
  const problems: string[] = [];
  for (const { child, parent, join, given } of references) {
    const { rows } = await client.query<{ n: string }>(
      `SELECT count(*) AS n FROM ${child} AS child
       WHERE ${given} AND NOT EXISTS (SELECT 1 FROM ${parent} AS parent WHERE ${join})`,
    );
    const count = Number(rows[0]!.n);
    if (count > 0) problems.push(`${child}: ${count} rows, each of which refers to no row of ${parent}`);
  }
  return { looked: 'every reference from one table to another', problems };
}

/** Whether a schema has tables, and columns where they are named as `table.column`. */
async function hasTables(client: Client, tables: readonly string[]): Promise<boolean> {
  const { rows } = await client.query<{ missing: string }>(
    `SELECT wanted AS missing FROM unnest($1::text[]) AS wanted
     WHERE NOT EXISTS (SELECT 1 FROM information_schema.columns WHERE table_schema = current_schema()
       AND table_name = split_part(wanted, '.', 1) AND split_part(wanted, '.', 2) IN ('', column_name))`,
    [tables],
  );
  return rows.length === 0;
}
