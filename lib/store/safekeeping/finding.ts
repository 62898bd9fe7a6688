import type Database from 'better-sqlite3';

/** What one check looked at, in words, and what it found wrong; none is good. */
export type Finding = { looked: string; problems: string[] };

/** Something that must hold between the rows of a database, whatever was done to it. */
export type Invariant = {
  name: string;
  /** Tables it needs, or columns as `table.column`; in a schema without them there is nothing to look at. */
  tables: readonly string[];
  look: (database: Database.Database) => Finding;
};

/**
 * An invariant said in SQL.
 *
 * @param count   SQL that counts what is looked at, as `n`
 * @param things  what that is, such as "readings"
 * @param wrong   SQL of the rows that break it, each with what is wrong as `problem`
 */
export function sqlInvariant({
  name,
  tables,
  count,
  things,
  wrong,
}: {
  name: string;
  tables: readonly string[];
  count: string;
  things: string;
  wrong: string;
}): Invariant {
  return {
    name,
    tables,
    look: (database) => ({
      looked: `${database.prepare<[], { n: number }>(count).get()!.n} ${things}`,
      problems: database
        .prepare<[], { problem: string }>(wrong)
        .all()
        .map(({ problem }) => problem),
    }),
  };
}
