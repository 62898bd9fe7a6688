import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { INVARIANTS } from '@/lib/store/safekeeping/invariants';
import { verifyDatabase } from '@/lib/work/verify-database';
import { runCleanby } from '../support/run-cleanby';
import { inDatabase, makePlant, type Plant } from './plant';

let plant: Plant;
beforeAll(async () => {
  plant = await makePlant();
});
afterAll(() => plant.remove());

/** The database with something done to it, beside the sound one. */
function damaged(sql: string): string {
  const path = `${plant.path}.${damages++}`;
  writeFileSync(path, readFileSync(plant.path));
  inDatabase(path, (database) => {
    database.pragma('foreign_keys = OFF');
    database.exec(sql);
  });
  return `file:${path}`;
}
let damages = 0;

function problemsOf(url: string): Record<string, string> {
  const bad = verifyDatabase(url).checks.filter(({ problems }) => problems.length > 0);
  return Object.fromEntries(bad.map(({ name, problems }) => [name, problems.join('; ')]));
}

const PLAN = `INSERT INTO cleaning_plan (id, accepted_at, accepted_by, request, result) VALUES (1, 0, 'x',`;

const DAMAGES: [check: string, sql: string, problem: RegExp][] = [
  ['units', 'DELETE FROM unit_version WHERE unit_id = 2', /unit 2 \(E-2\) has 0 datasheets/],
  ['units', 'UPDATE unit_version SET number = 3 WHERE unit_id = 2', /1 datasheets, the newest numbered 3/],
  [
    'datasheets',
    `UPDATE unit_version SET document = '{"tag":"E-1"}' WHERE unit_id = 1`,
    /E-1, datasheet 1: arrangement/,
  ],
  ['datasheets', `UPDATE unit_version SET document = '{' WHERE unit_id = 1`, /E-1, datasheet 1: no JSON/],
  [
    'files of cleanings',
    `INSERT INTO cleaning_file (unit_id, cleaning_id, name, type, bytes, content, added_at) VALUES (1, 1, 'a.png', 'image/png', 3, x'00', 0)`,
    /a.png\) has 1 of its 3 bytes/,
  ],
  ['readings', 'UPDATE reading SET batch_id = 99 WHERE unit_id = 1', /480 readings of unit 1 and batch 99/],
  ['readings', 'UPDATE reading SET unit_id = 99 WHERE unit_id = 1', /no such unit/],
  ['readings', 'UPDATE import_batch SET undone_at = 1 WHERE id = 1', /batch 1, but .* it was undone/],
  [
    'values before a change',
    `INSERT INTO reading_before (batch_id, unit_id, time, flow_basis, previous_batch_id) VALUES (2, 1, 1, 0, 99)`,
    /changed by batch 2 after batch 99/,
  ],
  ['batches', 'UPDATE import_batch SET set_aside = 2 WHERE id = 1', /2 rows set aside of which 0 are there/],
  [
    'batches',
    'UPDATE import_batch SET added = 1 WHERE id = 1',
    /1 readings added or replaced and 480 are there/,
  ],
  [
    'watched files',
    `INSERT INTO watched_file (folder, name, bytes, modified_at, content_hash, taken_at, batch_id) VALUES ('.', 'a.csv', 1, 0, '0', 0, 99)`,
    /a.csv was taken as batch 99/,
  ],
  [
    'daily figures',
    'UPDATE daily_block SET unit_id = 99 WHERE unit_id = 1',
    /unit 99: there is no such unit/,
  ],
  ['daily figures', 'UPDATE daily_block SET month = 7 WHERE unit_id = 1', /not of their month/],
  ['daily figures', `UPDATE daily_block SET figures = x'0102' WHERE unit_id = 1`, /are cut/],
  ['results', 'UPDATE unit_result SET method_version = 999 WHERE unit_id = 1', /newer method \(999\)/],
  ['results', 'UPDATE unit_result SET unit_version = 7 WHERE unit_id = 1', /datasheet 7, which is missing/],
  ['results', `UPDATE unit_result SET trend = '{' WHERE unit_id = 1`, /no JSON/],
  ['due for analysis', `INSERT INTO unit_due VALUES (99, 0, 'm', NULL, NULL)`, /unit 99 is due/],
  ['statements', `UPDATE unit_statement SET statement = '{' WHERE unit_id = 1`, /no JSON/],
  ['accepted plans', `${PLAN} '{}', '{}')`, /plan 1: status/],
  ['what plans were asked for', `${PLAN} '{"weeks":"many"}', '{}')`, /plan 1: weeks/],
  [
    'planned work',
    `${PLAN} '{}', '{}'); INSERT INTO planned_cleaning (plan_id, unit_id, from_at, to_at, crew_hours, cost, saves, reason, calendar_id, revision, state, changed_at)
      VALUES (1, 1, 5, 4, 1, 1, 1, 'pays', 'c', 0, 'open', 0)`,
    /work 1: it ends before it begins/,
  ],
  [
    'record of changes',
    `INSERT INTO change_record (at, actor_kind, actor_name, subject, subject_name, action, "before") VALUES (0, 'local', 'x', 'unit', 'E-1', 'change', '{')`,
    /change \d+ \(unit E-1\)/,
  ],
  ['references', 'DELETE FROM unit WHERE id = 3', /refers to no row of unit/],
  [
    'migrations',
    `UPDATE _prisma_migrations SET checksum = 'other' WHERE migration_name LIKE '%_init'`,
    /applied from another text/,
  ],
  [
    'migrations',
    `INSERT INTO _prisma_migrations (id, checksum, migration_name) VALUES ('z', 'z', '99990101000000_later')`,
    /newer version of Cleanby.*99990101000000_later/,
  ],
];

describe('a verification', () => {
  it('finds nothing wrong with a sound database, and says what it looked at', () => {
    const verification = verifyDatabase(plant.url);
    expect(verification.problems).toBe(0);
    expect(verification.checks.every(({ looked }) => looked !== '')).toBe(true);
    expect(verification.checks.find(({ name }) => name === 'readings')!.looked).toContain('1440 readings');
  });

  for (const [check, sql, problem] of DAMAGES) {
    it(`finds, under “${check}”, ${sql.split('\n')[0]!.slice(0, 90)}`, () => {
      expect(problemsOf(damaged(sql))[check]).toMatch(problem);
    });
  }

  it('was tried with something wrong for every invariant', () => {
    const tried = new Set(DAMAGES.map(([check]) => check));
    expect(INVARIANTS.map(({ name }) => name).filter((name) => !tried.has(name))).toEqual([]);
  });

  it('tells the first of many problems, and how many there are', () => {
    const many = damaged(
      `WITH RECURSIVE n(i) AS (SELECT 100 UNION ALL SELECT i + 1 FROM n WHERE i < 119) INSERT INTO unit_due SELECT i, 0, 'm', NULL, NULL FROM n`,
    );
    expect(problemsOf(many)['due for analysis']).toMatch(/unit 104 is due and does not exist; and 15 more$/);
    expect(verifyDatabase(many).problems).toBe(20);
  });

  it('finds pages that were overwritten', () => {
    const url = damaged('');
    const path = url.slice('file:'.length);
    const bytes = readFileSync(path);
    bytes.fill(0x5a, 8 * 4096, bytes.length - 4096);
    writeFileSync(path, bytes);
    expect(problemsOf(url).integrity).toMatch(/./);
  });

  it('looks at an older schema too, and at no table it does not have', () => {
    const url = damaged('DROP TABLE planned_change; DROP TABLE planned_cleaning; DROP TABLE cleaning_plan');
    const planned = verifyDatabase(url).checks.find(({ name }) => name === 'planned work');
    expect(planned).toMatchObject({ looked: 'not in this schema yet', problems: [] });
  });
});

describe('cleanby verify', () => {
  it('prints a line for each check and ends with 0', async () => {
    const run = await runCleanby(['verify'], plant.url);
    expect(run).toMatchObject({ code: 0, stderr: '' });
    expect(run.stdout).toMatch(/readings +1440 readings, .* good/);
  });

  it('ends with 1 and the reason last where something is wrong; as JSON with every problem', async () => {
    const url = damaged('UPDATE reading SET batch_id = 99 WHERE unit_id = 1');
    const run = await runCleanby(['verify', '--json'], url);
    expect(run.code).toBe(1);
    expect(run.stderr.trimEnd().split('\n').at(-1)).toMatch(/is not sound \(readings.*restore FILE$/);
    expect(JSON.parse(run.stdout)).toMatchObject({ problems: expect.any(Number) });
  });

  it('says so where there is no database, and makes none', async () => {
    const run = await runCleanby(['verify'], `${plant.url}.none`);
    expect(run).toMatchObject({ code: 1, stderr: `There is no database ${plant.path}.none\n` });
  });
});
