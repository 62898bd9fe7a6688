import { describe, expect, it } from 'vitest';
import { AppError } from '@/lib/contract/app-error';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { evaluate } from '@/lib/work/evaluate';
import { generateReadings } from '@/seed/generate/generate-readings';
import { loggedUnits } from '@/seed/generate/log-units';
import type { UnitPlan } from '@/seed/generate/unit-plan';
import { makeHeldOutFleet, withPerfectSensors } from '@/seed/held-out';
import { plainUnit } from '../support/units';

const DAY = 86_400_000;
const END = Date.parse('2026-06-01T00:00:00Z');

/** Three days of a unit's noise-free readings as a request of the contract, in the datasheet's units of measure. */
function requestOf(plan: UnitPlan, seed: number) {
  const { readings, truth } = generateReadings(withPerfectSensors(plan), {
    start: END - 3 * DAY,
    end: END,
    stepMs: 3 * 3_600_000,
    seed,
  });
  const logged = loggedUnits(plan.unit);
  const rows = Array.from(readings.time, (time, i) => {
    const values = SENSORS.flatMap((sensor) => {
      const value = readings[sensor][i]!;
      const { conversion, unit } = logged[sensor];
      return Number.isNaN(value)
        ? []
        : [[sensor, { value: (value - conversion.offset) / conversion.factor, unit }]];
    });
    return { time: new Date(time).toISOString(), ...Object.fromEntries(values) };
  });
  return { document: { unit: plan.unit, readings: rows }, truth };
}

describe('evaluate', () => {
  // Truth from the forward model of seed/, which goes from U to outlet temperatures; sources of the parts are beside them.
  it('gives back duty, U and clean U of held-out units within 0.3 %, over mixed units of measure', () => {
    let worst = 0;
    let judged = 0;
    for (let seed = 101; seed <= 110; seed++) {
      for (const [index, plan] of makeHeldOutFleet(seed, 12).plans.entries()) {
        const { document, truth } = requestOf(plan, seed * 100 + index);
        evaluate(document).forEach((one, i) => {
          if (!one.accepted || !truth.isRunning[i]) return;
          const trueU = 1 / (1 / truth.cleanU[i]! + truth.foulingResistance[i]!);
          const found = [one.duty! / truth.duty[i]!, one.cleanU! / truth.cleanU[i]!, one.U! / trueU];
          worst = Math.max(worst, ...found.map((ratio) => Math.abs(ratio - 1)));
          judged++;
        });
      }
    }
    expect(judged).toBeGreaterThan(1500);
    expect(worst).toBeLessThan(0.003);
  });

  const quantity = (value: number, unit: string) => ({ value, unit });
  const handCase = (unit: string) => ({
    time: '2026-05-04T08:00:00Z',
    hotIn: quantity(50, unit),
    hotOut: quantity(40, unit),
    coldIn: quantity(30, unit),
    coldOut: quantity(40, unit),
    hotFlow: quantity(10, 'kg/s'),
    coldFlow: quantity(10, 'kg/s'),
  });
  /** Constant specific heat, for then equal flows mean equal capacity rates exactly. */
  const constant = { fluid: 'custom', properties: { specificHeat: quantity(4180, 'J/(kg.K)') } } as const;

  it('finds balance 0, LMTD 10 K, effectiveness 0.5 and NTU 1 for 50→40 against 30→40 at equal flows (common practice)', () => {
    const [one] = evaluate({
      unit: plainUnit('E-1', { hot: constant, cold: constant }),
      readings: [handCase('Cel')],
    });
    expect(one!.accepted).toBe(true);
    expect(one!.balance).toBeCloseTo(0, 12);
    expect(one!.lmtd).toBeCloseTo(10, 9);
    expect(one!.effectiveness).toBeCloseTo(0.5, 12);
    expect(one!.ntu).toBeCloseTo(1, 9);
    expect(one!.duty).toBeCloseTo(10 * 4180 * 10, 4);
  });

  it('finds the same effectiveness and NTU when the same figures are °F', () => {
    const [one] = evaluate({
      unit: plainUnit('E-1', { hot: constant, cold: constant }),
      readings: [handCase('[degF]')],
    });
    expect(one!.effectiveness).toBeCloseTo(0.5, 12);
    expect(one!.ntu).toBeCloseTo(1, 9);
    expect(one!.lmtd).toBeCloseTo(10 / 1.8, 9);
  });

  it('answers in the order asked, each with the time it was given', () => {
    const later = { ...handCase('Cel'), time: '2026-05-04T10:00:00+01:00', hotIn: quantity(52, 'Cel') };
    const evaluated = evaluate({ unit: plainUnit('E-1'), readings: [later, handCase('Cel')] });
    expect(evaluated.map(({ time }) => time)).toEqual(['2026-05-04T10:00:00+01:00', '2026-05-04T08:00:00Z']);
    expect(evaluated[0]!.hotDuty!).toBeGreaterThan(evaluated[1]!.hotDuty!);
  });

  it('names each faulty field of a request', () => {
    const readings = [{ ...handCase('Cel'), hotFlow: quantity(10, 'Cel') }];
    expect(() => evaluate({ unit: plainUnit('E-1'), readings })).toThrow('The request is not valid');
  });

  it('names what a datasheet cannot be as a part of the request', () => {
    const unit = plainUnit('E-1', { design: { ...plainUnit('E-1').design, hotOut: quantity(60, 'Cel') } });
    const faults = faultsOf(() => evaluate({ unit, readings: [] }));
    expect(faults).toContain('unit.design.hotOut');
  });

  it('answers no readings with none, and says of each that lacks values that they are missing', () => {
    expect(evaluate({ unit: plainUnit('E-1'), readings: [] })).toEqual([]);
    const time = '2026-05-04T08:00:00Z';
    const [bare, nulls] = evaluate({
      unit: plainUnit('E-1'),
      readings: [{ time }, { time, hotIn: null, hotFlow: null }],
    });
    for (const one of [bare!, nulls!]) expect(one).toMatchObject({ accepted: false, reasons: ['missing'] });
  });

  it('takes two readings of the same instant, and ten thousand at once', () => {
    const twice = evaluate({ unit: plainUnit('E-1'), readings: [handCase('Cel'), handCase('Cel')] });
    expect(twice[0]).toEqual(twice[1]);
    const readings = Array.from({ length: 10_000 }, (_, i) => ({
      ...handCase('Cel'),
      time: new Date(Date.parse('2025-01-01T00:00:00Z') + i * 3_600_000).toISOString(),
      hotIn: quantity(50 + (i % 17) / 100, 'Cel'),
      coldOut: quantity(40 + (i % 13) / 100, 'Cel'),
    }));
    const evaluated = evaluate({ unit: plainUnit('E-1'), readings });
    expect(evaluated).toHaveLength(10_000);
    expect(evaluated.filter(({ reasons }) => reasons.includes('not-a-number'))).toEqual([]);
  });

  it('gives a reason, and no figure that is none, for absurd values', () => {
    const absurd = [
      { hotIn: quantity(1e300, 'Cel') },
      { coldIn: quantity(-500, 'Cel') },
      { hotFlow: quantity(1e308, 't/s') },
      { coldFlow: quantity(-3, 'm3/h') },
      { hotIn: quantity(30, 'Cel'), hotOut: quantity(30, 'Cel') },
      { hotFlow: quantity(0, 'kg/s'), coldFlow: quantity(0, 'kg/s') },
    ];
    const readings = absurd.map((values) => ({ ...handCase('Cel'), ...values }));
    for (const one of evaluate({ unit: plainUnit('E-1'), readings })) {
      expect(one.reasons).not.toEqual([]);
      expect(JSON.parse(JSON.stringify(one))).toEqual(one);
    }
  });

  it('converts a volume flow by the density at its own meter, inlet or outlet', () => {
    // Water at 50 and 40 °C: 988.04 and 992.22 kg/m³ (IAPWS, from memory).
    const flowOf = (at: 'inlet' | 'outlet') => {
      const unit = plainUnit('E-1', { sensors: { hotFlow: { at } } });
      const reading = { ...handCase('Cel'), hotFlow: quantity(36, 'm3/h') };
      return evaluate({ unit, readings: [reading] })[0]!.hotDuty!;
    };
    expect(flowOf('outlet') / flowOf('inlet')).toBeCloseTo(992.22 / 988.04, 4);
  });

  it('says which clean reference it used: the clean test where the unit states one, else the datasheet', () => {
    const reading = handCase('Cel');
    const { time, ...cleanTest } = reading;
    const answerOf = (changes: Parameters<typeof plainUnit>[1]) =>
      evaluate({ unit: plainUnit('E-1', changes), readings: [{ ...reading, time }] })[0]!;
    const tested = answerOf({ clean: 'test', cleanTest });
    expect(tested.reference).toBe('test');
    // The very reading of the test is clean by definition.
    expect(tested.cleanliness).toBeCloseTo(1, 12);
    expect(answerOf({}).reference).toBe('datasheet');
    expect(answerOf({ clean: 'learned' })).toEqual(answerOf({}));
  });

  it('refuses a clean test that is none, naming it', () => {
    const { hotIn, coldIn } = handCase('Cel');
    const unit = plainUnit('E-1', { clean: 'test', cleanTest: { hotIn, coldIn } });
    expect(faultsOf(() => evaluate({ unit, readings: [] }))).toEqual(['unit.cleanTest']);
  });
});

function faultsOf(work: () => unknown): string[] {
  try {
    work();
  } catch (error) {
    if (error instanceof AppError) return error.faults.map(({ field }) => field);
    throw error;
  }
  return [];
}
