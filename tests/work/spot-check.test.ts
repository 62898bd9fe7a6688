import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { spotCheckView } from '@/lib/report/spot-check/spot-check-view';
import { registerFleet } from '@/lib/work/register-fleet';
import { spotCheck } from '@/lib/work/spot-check';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await temporaryDatabase();
  await registerFleet(database.context, plainFleet(['E-1']));
});
afterAll(() => database.remove());

/** 50→40 against 30→40 °C, of water at 10 kg/s each. */
const READING = { hotIn: '50', hotOut: '40', coldIn: '30', coldOut: '40', hotFlow: '10', coldFlow: '10' };

async function check(params: Record<string, string>) {
  const records = await spotCheck(database.context, 'E-1', { params, system: 'si' });
  return spotCheckView(records!, 'si');
}

describe('a spot check', () => {
  it('asks for values where none are typed, and has no last reading of a unit without a record', async () => {
    expect(await check({})).toMatchObject({ result: null, last: null, form: { faults: 0 } });
    expect(await spotCheck(database.context, 'none', { params: {}, system: 'si' })).toBeNull();
  });

  it('works one reading out: accepted, every figure, every step, and no trend to compare with', async () => {
    const { result } = await check(READING);
    expect(result!.reasons).toEqual([]);
    const figure = (label: string) => result!.figures.find((own) => own.label === label)!.figure.number;
    // Equal flows of water: effectiveness a half and one transfer unit, but for the specific heat's change with temperature.
    expect(Number(figure('Effectiveness ε'))).toBeCloseTo(0.5, 2);
    expect(Number(figure('NTU'))).toBeCloseTo(1, 2);
    expect(result!.steps.map(({ id }) => id)).toContain('rf');
    expect(result!.balanceTest).toMatch(/^χ² = /);
    expect(result!.againstTrend!.agrees).toBeNull();
    expect(result!.allowance).not.toBeNull();
  });

  it('is less sure with a poorer thermometer', async () => {
    const spreadOf = async (temperatureUncertainty: string) =>
      Number((await check({ ...READING, temperatureUncertainty })).result!.figures[0]!.figure.uncertainty);
    expect(await spreadOf('1')).toBeGreaterThan(2 * (await spreadOf('0.2')));
  });

  it('infers one missing value and says so; of two it names what to measure', async () => {
    const inferred = (await check({ ...READING, coldFlow: '' })).result!;
    expect(inferred.reasons).toEqual([]);
    expect(inferred.remarks.join(' ')).toMatch(/cold flow is not measured: it is inferred/i);
    const missing = (await check({ ...READING, coldFlow: '', hotFlow: '' })).result!;
    expect(missing.figures).toEqual([]);
    expect(missing.reasons[0]!.advice).toMatch(/^Measure the hot flow, or the cold flow as well/);
  });

  it('gives a reason and what to do for a reading that cannot be, and works out nothing from it', async () => {
    const swapped = (await check({ ...READING, hotIn: '40', hotOut: '50' })).result!;
    expect(swapped.reasons[0]).toMatchObject({ name: 'Temperatures reversed' });
    expect(swapped.reasons[0]!.advice).toContain('swapped');
    const absurd = await check({ ...READING, hotFlow: '1e308', hotFlowUnit: 't/s' });
    expect(absurd.result!.reasons.length).toBeGreaterThan(0);
  });

  it('moves a pressure drop to the design flow', async () => {
    const { result } = await check({ ...READING, hotFlow: '8', coldFlow: '8', hotPressureDrop: '20' });
    // (10/8)^1.8 = 1.494
    expect(Number.parseFloat(result!.pressureDrops[0]!.atDesignFlow)).toBeCloseTo(29.9, 1);
  });
});
