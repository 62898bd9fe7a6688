import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cleaningsSchema } from '@/lib/contract/cleaning-request';
import { fallsSchema } from '@/lib/contract/fall-answers';
import { cyclesResultSchema, fleetHealthSchema } from '@/lib/contract/results';
import { verdictsSchema } from '@/lib/contract/verdicts';
import { FEW_PLATES } from '../support/clean-records';
import { FALL_DAY, unitWithFall } from '../support/fall-record';
import { type Run, runCleanby } from '../support/run-cleanby';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

const { tag } = FEW_PLATES;

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await temporaryDatabase();
  await unitWithFall(database.context);
}, 120_000);
afterAll(() => database.remove());

const cleanby = (...args: string[]): Promise<Run> => runCleanby(args, database.url);
const json = async (...args: string[]) => JSON.parse((await cleanby(...args, '--json')).stdout);
const BY = ['--by', 'process engineer'];

// One story, told in order: each step stands on the one before.
describe('what people say of a record, on the command line', { timeout: 240_000 }, () => {
  it('judges a period, lists it and withdraws it', async () => {
    const period = ['--from', '2025-01-10T00:00:00Z', '--to', '2025-01-11T00:00:00Z'];
    const why = ['--note', 'sensors out', ...BY];
    const judged = await json('judge', tag, ...period, '--verdict', 'exclude', ...why);
    expect(judged).toMatchObject({ id: 1, tag, verdict: 'exclude', by: 'process engineer' });
    const undone = await cleanby('withdraw', 'verdict', tag, '1', '--note', 'wrong day', ...BY);
    expect(undone).toMatchObject({ code: 0, stdout: '' });
    const { verdicts } = verdictsSchema.parse(await json('show', 'verdicts', tag));
    expect(verdicts).toMatchObject([{ id: 1, withdrawn: { note: 'wrong day' } }]);
  });

  it('answers a fall, and corrects the cleaning recorded with it', async () => {
    const falls = fallsSchema.parse(await json('show', 'falls', tag));
    expect(falls.probableCleanings.map(({ day }) => day)).toEqual([FALL_DAY]);
    const answered = await cleanby('answer', tag, '--day', FALL_DAY, '--as', 'cleaning', ...BY);
    expect(answered.code).toBe(0);
    await cleanby('correct', tag, '1', '--cost', '900', '--reason', 'invoice', ...BY);
    const known = cleaningsSchema.parse(await json('show', 'cleanings', tag));
    expect(known).toMatchObject({ cleanings: [{ id: 1, cost: 900 }], changes: [{ cost: 4000 }] });
    await cleanby('analyse');
    const { cycles } = cyclesResultSchema.parse(await json('show', 'cycles', tag));
    expect(cycles.map(({ began }) => began)).toEqual(['record', 'cleaning']);
  });

  it('shows the data health of every unit, and of the fleet', async () => {
    const { units, fleet } = fleetHealthSchema.parse(await json('show', 'health'));
    expect(units.map((unit) => unit.tag)).toEqual([tag]);
    expect(fleet).toEqual({ units: 1, usable: units[0]!.usable, suspect: 0 });
    const table = (await cleanby('show', 'health')).stdout.trim().split('\n');
    expect(table.at(-1)).toContain('1 unit');
    const rows = (await cleanby('show', 'health', '--csv')).stdout.trim().split('\r\n');
    expect(rows).toHaveLength(2);
  });

  it('answers wrong usage with 2, and a refusal with 1 and the field', async () => {
    expect((await cleanby('judge', tag)).code).toBe(2);
    expect((await cleanby('withdraw', 'cleaning', tag, 'first', '--note', 'x', ...BY)).code).toBe(2);
    const other = await cleanby('answer', tag, '--day', '2025-01-20', '--as', 'cleaning', ...BY);
    expect(other.code).toBe(1);
    expect(other.stderr).toContain('day: nothing of');
    const local = await cleanby('correct', tag, '1', '--at', '2025-01-20 08:00', '--reason', 'x', ...BY);
    expect(local.code).toBe(1);
    expect(local.stderr).toContain('at: write it as ISO 8601 with offset');
  });
});
