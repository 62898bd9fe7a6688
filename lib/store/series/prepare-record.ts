import type Database from 'better-sqlite3';
import type { ChangeAction, ChangeSubject } from '@/lib/contract/change-record';
import type { ChangedBy } from './series-store';

export type BulkChange = {
  subject: ChangeSubject;
  name: string;
  action: ChangeAction;
  before?: object;
  after?: object;
};

/** Prepares writing a change down in the transaction that makes it (as `recordChange` does for entities). */
export function prepareRecord(database: Database.Database, { actor, at }: ChangedBy) {
  const statement = database.prepare(
    `INSERT INTO change_record
       (at, actor_kind, actor_id, actor_name, subject, subject_name, action, before, after, note)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, NULL)`,
  );
  return ({ subject, name, action, before, after }: BulkChange): void => {
    const json = (document?: object) => (document === undefined ? null : JSON.stringify(document));
    const { kind, id, name: actorName } = actor;
    statement.run(at, kind, id, actorName, subject, name, action, json(before), json(after));
  };
}
