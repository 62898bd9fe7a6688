/**
 * Tests that are not run once more on PostgreSQL, each with the reason: they are about an SQLite file by nature, or bring their own
 * server. Everything else that opens a database runs on both.
 */
export const ONLY_ON_SQLITE: Record<string, string> = {
  'tests/store/migration.test.ts': 'the schema of the file; postgres-migration.test.ts looks at the server’s',
  'tests/store/migrate-with-data.test.ts': 'a file of the first version; PostgreSQL came later',
  'tests/store/write-turns-sqlite.test.ts': 'another process holds the lock of the file',
  'tests/store/data-version.test.ts': 'a number that only the file has',
  'tests/cli/kept-pages.test.ts': 'opens no database',
  'tests/store/postgres-migration.test.ts': 'brings its own server, so that it runs everywhere',
  'tests/store/write-turns-postgres.test.ts': 'brings its own server, so that it runs everywhere',
  'tests/store/move{,-fleet}.test.ts': 'brings its own server, so that it runs everywhere',
  'tests/safekeeping/**':
    'files that are copied, damaged, locked and brought back; postgres-*.test.ts bring their own server',
  'tests/kill/{backup,migration,import,analysis}.test.ts':
    'copies a file at the instant of the kill and looks at it',
};
