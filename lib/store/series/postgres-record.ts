import type { ClientBase } from 'pg';
import type { BulkChange } from './prepare-record';
import type { ChangedBy } from './series-store';

/** An instant [ms] as Prisma keeps one, in the zone UTC without saying so. */
export const INSTANT = (parameter: string) =>
  `to_timestamp(${parameter}::double precision / 1000) AT TIME ZONE 'UTC'`;

/** Writes a change down in the caller's transaction (as `recordChange` does for entities). */
export async function recordBulk(
  client: ClientBase,
  { actor, at }: ChangedBy,
  { subject, name, action, before, after }: BulkChange,
): Promise<void> {
  const json = (document?: object) => (document === undefined ? null : JSON.stringify(document));
  await client.query(
    `INSERT INTO change_record
       (at, actor_kind, actor_id, actor_name, subject, subject_name, action, before, after, note)
     VALUES (${INSTANT('$1')}, $2, $3, $4, $5, $6, $7, $8, $9, NULL)`,
    [at, actor.kind, actor.id, actor.name, subject, name, action, json(before), json(after)],
  );
}
