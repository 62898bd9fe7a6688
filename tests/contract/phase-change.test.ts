import { describe, expect, it } from 'vitest';
import type { AppError } from '@/lib/contract/app-error';
import { toExchanger } from '@/lib/contract/exchanger-from-unit';
import { type Unit, unitSchema } from '@/lib/contract/fleet-file';
import { evaluatedReadingSchema } from '@/lib/contract/readings';
import { evaluate } from '@/lib/work/evaluate';
import { plainUnit } from '../support/units';

const celsius = (value: number) => ({ value, unit: 'Cel' });
const massFlow = (value: number) => ({ value, unit: 'kg/s' });
const BOILING = {
  hotIn: celsius(150),
  hotOut: celsius(125),
  coldIn: celsius(60),
  coldOut: celsius(100),
  hotFlow: massFlow(20),
  coldFlow: massFlow(0.9),
};
const boiler = (change: Partial<Unit> = {}): Unit =>
  unitSchema.parse(plainUnit('E-1', { cold: { fluid: 'steam' }, design: BOILING, ...change }));

function faultsOf(unit: Unit): string[] {
  try {
    toExchanger(unit);
    return [];
  } catch (error) {
    return (error as AppError).faults?.map(({ field, message }) => `${field} ${message}`) ?? [];
  }
}

describe('a cold stream that evaporates', () => {
  it('is accepted, with subcooled or saturated feed', () => {
    expect(faultsOf(boiler())).toEqual([]);
    expect(faultsOf(boiler({ design: { ...BOILING, coldIn: celsius(100) } }))).toEqual([]);
  });

  it('needs a hot stream that stays above saturation, by the stated pressure where there is one', () => {
    expect(faultsOf(boiler({ design: { ...BOILING, hotOut: celsius(99) } })).join()).toContain(
      'design.hotOut',
    );
    // 5 bar boils at 151.8 °C, above the hot inlet.
    const pressure = { value: 5e5, unit: 'Pa' };
    expect(faultsOf(boiler({ cold: { fluid: 'steam', pressure } })).join()).toContain('design.coldOut');
  });

  it('is refused against one that condenses, with the reason: Cr is undefined', () => {
    const design = { ...BOILING, hotOut: celsius(150), hotFlow: massFlow(1) };
    const faults = faultsOf(boiler({ hot: { fluid: 'steam' }, design }));
    expect(faults.join()).toMatch(/^cold\.fluid .*Cr is undefined/);
  });

  it('has no volume flow of vapour, for the density is the liquid’s', () => {
    const design = { ...BOILING, coldFlow: { value: 3.2, unit: 'm3/h' } };
    expect(faultsOf(boiler({ design }))).toEqual([]);
    expect(faultsOf(boiler({ design, sensors: { coldFlow: { at: 'outlet' } } })).join()).toContain('vapour');
  });
});

describe('a nominal flow', () => {
  const nominal = { value: 36, unit: 't/h' };
  const sensorsOf = (hotFlow: NonNullable<Unit['sensors']>['hotFlow']) =>
    toExchanger(plainUnit('P-1', { sensors: { hotFlow } }));

  it('has an uncertainty of 10 %, all of it systematic, unless another is stated', () => {
    expect(sensorsOf({ nominal }).nominalFlows).toEqual({ hot: 10, cold: null });
    expect(sensorsOf({ nominal }).sensors.hotFlow).toEqual({
      absolute: 0,
      relative: 0.1,
      systematicShare: 1,
    });
    expect(sensorsOf({ nominal, systematicShare: 0.9 }).sensors.hotFlow.systematicShare).toBe(0.9);
    expect(sensorsOf({ nominal, uncertainty: 0.05 }).sensors.hotFlow).toEqual({
      absolute: 0,
      relative: 0.05,
      systematicShare: 0.5,
    });
    expect(sensorsOf({}).sensors.hotFlow.relative).toBe(0.02);
  });
});

describe('an evaluated reading', () => {
  const temperatures = { hotIn: celsius(50), hotOut: celsius(41), coldIn: celsius(30), coldOut: celsius(39) };
  const time = '2025-01-06T00:00:00Z';
  const answer = (unit: Unit, reading: object) => {
    const [first] = evaluate({ unit, readings: [{ time, ...reading }] });
    return evaluatedReadingSchema.parse(first);
  };

  it('names the sensors any one of which would make it evaluable', () => {
    const result = answer(plainUnit('P-1'), temperatures);
    expect(result).toMatchObject({ accepted: false, reasons: ['missing'], duty: null, nominal: [] });
    expect(result).toMatchObject({ missing: ['hotFlow', 'coldFlow'], missingTogether: false });
  });

  it('names the shortest list where no single one would do', () => {
    const { coldOut, ...three } = temperatures;
    expect(coldOut.value).toBe(39);
    const result = answer(plainUnit('P-1'), three);
    expect(result).toMatchObject({ missing: ['coldOut', 'hotFlow'], missingTogether: true });
  });

  it('says which flow was typed in and which inferred', () => {
    const unit = plainUnit('P-1', { sensors: { hotFlow: { nominal: massFlow(10) } } });
    const result = answer(unit, temperatures);
    expect(result).toMatchObject({
      accepted: true,
      nominal: ['hotFlow'],
      inferred: ['coldFlow'],
      missing: [],
    });
    expect(result).toMatchObject({ balance: null, missingTogether: false });
  });
});
