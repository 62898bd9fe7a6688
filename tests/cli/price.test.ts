import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { registerFleet } from '@/lib/work/register-fleet';
import { runCleanby } from '../support/run-cleanby';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await temporaryDatabase();
  await registerFleet(
    database.context,
    plainFleet(['E-1'], { energy: { effect: 'heating', supply: 'gas' } }),
  );
});
afterAll(() => database.remove());

const price = (...args: string[]) => runCleanby(['price', 'Test works', 'gas', ...args], database.url);

describe('cleanby price', { timeout: 120_000 }, () => {
  it('records a price and a factor, says which units use it, and takes it back', async () => {
    const stated = [
      '--amount',
      '42',
      '--per',
      'MW.h',
      '--carbon',
      '0.2',
      '--by',
      'buyer',
      '--note',
      'contract',
    ];
    const done = await price('--from', '2026-03-01', ...stated, '--json');
    expect(done.code).toBe(0);
    expect(JSON.parse(done.stdout)).toMatchObject({
      from: '2026-03-01',
      price: { amount: 42, per: 'MW.h' },
      carbon: { kg: 0.2, per: 'kW.h' },
      by: 'buyer',
      usedBy: ['E-1'],
    });
    const back = await price('--from', '2026-03-01', '--withdraw');
    expect(back).toMatchObject({ code: 0, stdout: '' });
    expect(back.stderr).toContain('withdrawn from 2026-03-01');
    const twice = await price('--from', '2026-03-01', '--withdraw');
    expect(twice.code).toBe(1);
    expect(twice.stderr).toContain('from: nothing is stated of "gas"');
  });

  it('answers wrong usage with 2, and a refusal with 1 and the field', async () => {
    expect((await price('--amount', '42')).code).toBe(2);
    const wrong = await price('--from', '1 March', '--amount', 'much');
    expect(wrong.code).toBe(1);
    expect(wrong.stderr).toContain('from: write a day as YYYY-MM-DD');
    expect(wrong.stderr).toContain('price.amount: must be a number');
  });
});
