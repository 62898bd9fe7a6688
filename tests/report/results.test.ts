import { describe, expect, it } from 'vitest';
import { cyclesResultSchema, unitResultSchema } from '@/lib/contract/results';
import type { Hindcast, UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { cyclesResult } from '@/lib/report/cycles-result';
import { fleetHealth } from '@/lib/report/fleet-health';
import { unitResult } from '@/lib/report/unit-result';
import { localDay } from '@/lib/time/local-clock';
import { CLEANED_AT, linearTrend, NOW, PLATE_UNIT, PORT, unitRecords } from '../support/unit-records';

const RECORDS = unitRecords();

const resultOf = (changes: Partial<UnitTrend> = {}) =>
  unitResult({
    unit: PLATE_UNIT,
    site: PORT,
    exchanger: RECORDS.record.exchanger,
    daily: RECORDS.daily,
    cleanings: [],
    supplies: [],
    trend: { ...linearTrend(), ...changes },
    asOf: NOW,
    today: localDay(NOW, PORT.timeZone),
  });

/** Made on day 1000 of a level that was reached on day 1100. */
const hindcast = (changes: Partial<Hindcast>): Hindcast => ({
  cycleStartDay: 900,
  madeDay: 1000,
  shareOfLife: 0.5,
  level: 2e-4,
  isLimit: true,
  reachedDay: 1100,
  reachedUncertainty: 1,
  p10Day: 1090,
  p50Day: 1102,
  p90Day: 1120,
  held: true,
  score: 0.2,
  ...changes,
});

describe('the result of a unit', () => {
  it('keeps to the contract, and says where its band comes from', () => {
    const widening = { factor: 1.25, from: 'fleet', count: 40 } as const;
    const plain = unitResultSchema.strict().parse(resultOf({ widening }));
    expect(plain.cleanBy).toMatchObject({ widenedBy: 1.25 });
    const borrowed = { from: 'like-units', cycles: 12, units: 3 } as const;
    expect(resultOf({ borrowed }).cleanBy.borrowedFrom).toBe('like-units');
    expect(resultOf({ borrowed: { from: 'none', cycles: 0, units: 0 } }).cleanBy.borrowedFrom).toBeNull();
  });

  it('tells its own record by the projections made at half life', () => {
    const record = [
      hindcast({}),
      hindcast({ p50Day: 1095, held: false, score: 1.4 }),
      // No day at all is further off than any; the middle of three is then the larger error.
      hindcast({ p50Day: null, held: false, score: 2 }),
      hindcast({ shareOfLife: 0.75, p50Day: 1300 }),
    ];
    expect(resultOf({ record }).record).toEqual({
      count: 3,
      held: 1 / 3,
      medianErrorDays: 5,
      medianErrorShare: 0.05,
    });
    expect(resultOf({ record: [] }).record).toEqual({
      count: 0,
      held: null,
      medianErrorDays: null,
      medianErrorShare: null,
    });
  });

  it('names probable cleanings, and since when its data are suspect', () => {
    const fall = { day: 20_000, earliest: 0, latest: 1, before: 1e-4, after: 1e-5, share: 0.45 };
    const drift = {
      kind: 'shift',
      sinceDay: 20_005,
      change: 0.03,
      changeUncertainty: 0.003,
      perMonth: null,
      perMonthUncertainty: null,
    } as const;
    const { health } = linearTrend();
    const result = resultOf({
      probableCleanings: [{ ...fall, fall: 9e-5, fallUncertainty: 1e-6 }],
      health: { ...health, drift, suspectSinceDay: 20_005 },
    });
    expect(result.probableCleanings).toEqual([{ day: '2024-10-04', before: 1e-4, after: 1e-5, share: 0.45 }]);
    expect(result.health).toMatchObject({
      suspectSince: '2024-10-09',
      drift: { kind: 'shift', change: 0.03, perMonth: null, since: '2024-10-09' },
    });
    const fleet = fleetHealth([result, { ...resultOf(), tag: 'HX-0' }]);
    expect(fleet.units.map(({ tag }) => tag)).toEqual(['HX-0', 'HX-1']);
    expect(fleet.fleet).toMatchObject({ units: 2, suspect: 1 });
    expect(fleet.fleet.usable!).toBeCloseTo(health.usable!, 12);
  });
});

describe('the cycles of a unit', () => {
  it('say what began them, and what the cleaning did or why that cannot be told', () => {
    const trend = linearTrend();
    const cleaning = { at: CLEANED_AT, localDay: 20_133 };
    const untold = {
      ...trend,
      cleaningResults: [{ ...cleaning, effect: null, reason: 'too-few-after' as const }],
    };
    const shown = cyclesResultSchema.strict().parse(cyclesResult('HX-1', untold));
    expect(shown.cycles.map(({ began, cleaning: result }) => [began, result?.reason ?? null])).toEqual([
      ['record', null],
      ['cleaning', 'too-few-after'],
    ]);
    expect(shown.cycles[1]!.cleaning).toMatchObject({
      before: null,
      shareRecovered: null,
      energyWorth: null,
    });
    expect(shown.cycles[0]!.cleaning).toBeNull();
  });
});
