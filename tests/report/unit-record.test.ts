import { describe, expect, test } from 'vitest';
import { toExchanger } from '@/lib/contract/exchanger-from-unit';
import type { CleaningEffect, CleaningResult } from '@/lib/core/cycles/cleaning-result';
import type { Hindcast, UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { UnitRecords } from '@/lib/report/records';
import { statementText } from '@/lib/report/unit/clean-by-statement';
import { cleaningTable } from '@/lib/report/unit/cleaning-rows';
import { completeTrend } from '@/lib/report/unit/complete-trend';
import { cycleTable } from '@/lib/report/unit/cycle-rows';
import { driftInWords, healthView } from '@/lib/report/unit/health-view';
import { recordView, surenessInWords } from '@/lib/report/unit/record-view';
import { parseUnitAddress } from '@/lib/report/unit/unit-address';
import { unitView } from '@/lib/report/unit-view';
import { CLEANED_AT, linearTrend, PLATE_UNIT, unitRecords } from '../support/unit-records';

const TREND = linearTrend();
const CYCLE_START = TREND.cycles[0]!.startDay;
const RECORDS = unitRecords();

/** A projection made on day 30 of a cycle whose level came on day 60. */
function hindcast(changes: Partial<Hindcast> = {}): Hindcast {
  return {
    cycleStartDay: CYCLE_START,
    madeDay: CYCLE_START + 30,
    shareOfLife: 0.5,
    level: 1e-4,
    isLimit: true,
    reachedDay: CYCLE_START + 60,
    reachedUncertainty: 1,
    p10Day: CYCLE_START + 50,
    p50Day: CYCLE_START + 57,
    p90Day: CYCLE_START + 70,
    held: true,
    score: 0.4,
    ...changes,
  };
}
const MISSED = hindcast({
  shareOfLife: 0.25,
  madeDay: CYCLE_START + 15,
  p10Day: CYCLE_START + 66,
  p50Day: CYCLE_START + 75,
  p90Day: null,
  held: false,
  score: 1.8,
});
const NEVER = hindcast({
  shareOfLife: 0.75,
  p10Day: null,
  p50Day: null,
  p90Day: null,
  held: false,
  score: 3,
});

const withTrend = (changes: Partial<UnitTrend>): UnitTrend => ({ ...TREND, ...changes });

describe('past projections of a unit', () => {
  const view = recordView(withTrend({ record: [MISSED, hindcast(), NEVER] }), 'si')!;

  test('stand beside what came, the newest first, with the error of P50 and its share of the time left', () => {
    expect(
      view.rows.map(({ made, error, ofTimeLeft, outcome }) => [made, error, ofTimeLeft, outcome]),
    ).toEqual([
      ['5 Feb, at 75 %', '–', '–', 'missed'],
      ['5 Feb, at 50 %', '−3', '10 %', 'held'],
      ['21 Jan, at 25 %', '+15', '33 %', 'missed'],
    ]);
    expect(view.rows[1]).toMatchObject({
      projected: '25 Feb – 4 Mar – 17 Mar',
      came: '7 Mar 2025',
      level: 'the limit',
    });
    expect(view.rows[2]!.projected).toBe('13 Mar – 22 Mar – later');
  });

  test('are totalled: how many held, and how far off P50 was in the median', () => {
    expect(view.sentence).toBe(
      '1 of 3 past projections of this unit held the day between P10 and P90 (33 %; 80 % is the aim); P50 was off by 9 days in the median, 22 % of the time then left.',
    );
  });

  test('are drawn on one scale around the day that came', () => {
    // The furthest of all is 15 days away; the scale ends at a round number beyond.
    expect(view.scale).toEqual({ least: '−15 d', greatest: '+15 d' });
    const [never, held, missed] = view.rows.map(({ picture }) => picture);
    expect(never).toBeNull();
    expect(held).toEqual({ from: 0.5 - 10 / 30, to: 0.5 + 10 / 30, middle: 0.5 - 3 / 30, isOpen: false });
    expect(missed).toEqual({ from: 0.5 + 6 / 30, to: 1, middle: 1, isOpen: true });
  });

  test('say so where there are none, and before an analysis', () => {
    expect(recordView(TREND, 'si')).toMatchObject({
      rows: [],
      sentence: expect.stringContaining('No past cycle'),
    });
    expect(recordView(null, 'si')).toBeNull();
  });

  test('a level that is no limit is the fouling near the end of its cycle', () => {
    const [row] = recordView(withTrend({ record: [hindcast({ isLimit: false })] }), 'si')!.rows;
    expect(row!.level).toBe('0.10 m²·K/kW');
  });
});

describe('what the record makes of the present projection', () => {
  const present = (changes: Partial<UnitTrend>) => recordView(withTrend(changes), 'si')!.present;

  test('whose record widens it, and by how much', () => {
    expect(present({ widening: { factor: 1.31, from: 'fleet', count: 54 } })[0]).toBe(
      'P10 and P90 are set 1.31 times as far from the median as the growth models give them, so that four in five of 54 past projections of the fleet would have held the day.',
    );
    expect(present({ widening: { factor: 1, from: 'unit', count: 12 } })[0]).toContain(
      'by 12 past projections of this unit that is wide enough',
    );
    expect(present({ widening: { factor: 1, from: 'none', count: 1 } })[0]).toContain(
      '1 past projection of the fleet is too few',
    );
  });

  test('what is borrowed is said there and in the statement', () => {
    const own = withTrend({ borrowed: { from: 'own-cycles', cycles: 3, units: 1 } });
    const like = withTrend({ borrowed: { from: 'like-units', cycles: 4, units: 2 } });
    expect(recordView(own, 'si')!.present[1]).toContain('also taken from 3 earlier cycles');
    expect(recordView(like, 'si')!.present[1]).toContain('also taken from 4 cycles of 2 like units');
    const { header } = unitView({ ...RECORDS, trend: own }, parseUnitAddress('HX-1', {}), 'si');
    expect(statementText(header.statement)).toContain(
      'a linear and a falling-rate model carry the weight, form and rate also from 3 earlier cycles.',
    );
  });

  test('the models stand with their weights, those of one name together', () => {
    expect(present({})).toContain(
      'Growth models of the running cycle by weight: linear 62 %, falling rate 38 %.',
    );
  });

  test('the record stands beside the projected day, and nowhere where no day is projected', () => {
    const widening = { factor: 1.31, from: 'fleet', count: 54 } as const;
    expect(surenessInWords(withTrend({ record: [hindcast(), MISSED], widening }))).toBe(
      '1 of 2 past projections of this unit held between P10 and P90; the spread is set 1.3 times as wide after 54 of the fleet.',
    );
    expect(surenessInWords(TREND)).toBe('No past projection of this unit can be checked yet.');
    const crossed = TREND.limits.map((limit) => ({ ...limit, crossedDay: CYCLE_START + 80 }));
    expect(surenessInWords(withTrend({ limits: crossed }))).toBeNull();
    expect(surenessInWords(null)).toBeNull();
  });
});

describe('what a cleaning did', () => {
  const EFFECT: CleaningEffect = {
    before: 9e-5,
    beforeUncertainty: 3e-6,
    after: 3e-5,
    afterUncertainty: 3e-6,
    recovered: 6e-5,
    recoveredUncertainty: 2e-6,
    shareRecovered: 0.667,
    shareRecoveredUncertainty: 0.031,
    isPartial: true,
    dutyRecovered: 85_000,
    // 100 MWh of heat.
    energySoFar: 3.6e11,
    daysCounted: 76,
    daysElapsed: 80,
    daysUntilBack: 62,
  };
  const RESULT: CleaningResult = { at: CLEANED_AT, localDay: CYCLE_START + 40, effect: EFFECT, reason: null };
  const priced: UnitRecords = {
    ...RECORDS,
    record: {
      ...RECORDS.record,
      unit: {
        ...PLATE_UNIT,
        energy: { effect: 'heating', price: { amount: 0.08, per: 'kW.h' }, efficiency: 0.8 },
      },
      exchanger: toExchanger(PLATE_UNIT),
    },
  };
  /** 100 MWh / 0.8 bought at 0.08 €/kWh, as the analysis worked it out. */
  const returned = [
    { cleanedAt: new Date(CLEANED_AT).toISOString(), money: 10_000, moneyUncertainty: 300, paidBackOn: null },
  ];
  const rowOf = (result: CleaningResult[], records = priced) =>
    cleaningTable(
      {
        ...records,
        trend: withTrend({ cleaningResults: result }),
        result: {
          returned: result.some(({ effect }) => effect !== null) ? returned : [],
        } as unknown as UnitRecords['result'],
      },
      'si',
    ).rows[0]!;

  test('is its fouling before and after, the share recovered, duty, energy and money since, and how long it lasted', () => {
    expect(rowOf([RESULT])).toMatchObject({
      cleaned: '15 Feb 2025, 09:00',
      how: 'hot caustic wash, 4,000\u00a0€',
      before: { number: '0.090', uncertainty: '0.003' },
      after: { number: '0.030', uncertainty: '0.003' },
      recovered: '67 ± 3 %',
      isPartial: true,
      duty: { number: '85', unit: 'kW' },
      energy: { number: '100', unit: 'MWh' },
      days: '76 of 80 days counted',
      worth: '10,000\u00a0€',
      back: 'after 62 days',
    });
  });

  test('is a floor, and says how it was worked out', () => {
    const { working } = cleaningTable({ ...priced, trend: TREND }, 'si');
    expect(working).toContain('It is a floor');
    expect(working).toContain('at 0.08 € per kWh bought, 1.25 kWh for each kWh of heat');
    expect(cleaningTable(RECORDS, 'si').working).toContain('No price of energy');
  });

  test('is not known for a reason where it is not', () => {
    expect(rowOf([{ ...RESULT, effect: null, reason: 'too-few-after' }])).toMatchObject({
      recovered: 'not known yet: too few figures after it',
      worth: '–',
      back: '–',
    });
    expect(rowOf([]).recovered).toBe('not known: outside the readings');
    const clean = {
      ...EFFECT,
      shareRecovered: null,
      shareRecoveredUncertainty: null,
      isPartial: null,
      daysUntilBack: null,
    };
    expect(rowOf([{ ...RESULT, effect: clean }])).toMatchObject({
      recovered: 'no share: it was not fouled',
      isPartial: false,
      back: 'not yet',
    });
  });

  test('can be corrected from what was recorded', () => {
    expect(rowOf([RESULT]).entries).toEqual({
      id: 1,
      revision: 0,
      at: '2025-02-15T09:00',
      method: 'hot caustic wash',
      cost: '4000',
      note: '',
    });
  });
});

test('a cycle says what began it, also where that was a fall nobody explained', () => {
  const [first, running] = TREND.cycles;
  const fallen = withTrend({
    cycles: [
      { ...first!, end: null },
      { ...running!, start: null, began: 'probable-cleaning' },
    ],
  });
  const rows = cycleTable({ ...RECORDS, trend: fallen }, 'si').rows;
  expect(rows.map(({ began, end, endedBy }) => [began, end, endedBy])).toEqual([
    ['△ a fall, no cleaning recorded', 'running', '–'],
    ['the record begins', '15 Feb 2025', '△ a fall, no cleaning recorded'],
  ]);
});

describe('data health', () => {
  const drift = {
    kind: 'drift',
    sinceDay: CYCLE_START + 60,
    change: 0.031,
    changeUncertainty: 0.008,
    perMonth: 0.012,
    perMonthUncertainty: 0.003,
  } as const;

  test('is the usable share, the worst reason, since when the data are suspect, and the balance', () => {
    const health = {
      usable: 0.83,
      worstReason: 'spike',
      sinceDay: CYCLE_START + 70,
      drift,
      suspectSinceDay: drift.sinceDay,
    } as const;
    expect(healthView({ ...RECORDS, trend: withTrend({ health }) })).toEqual({
      usable: '83 % of the readings while it ran in the last 30 days',
      worst: 'spikes, since 17 Mar 2025',
      suspectSince: '7 Mar 2025',
      balance: driftInWords(drift),
    });
    expect(healthView(RECORDS)).toMatchObject({ suspectSince: null, balance: 'no lasting change found' });
  });

  test('a balance that moves makes some sensor suspect and none guilty', () => {
    expect(driftInWords(drift)).toBe(
      'The balance has been moving since 7 Mar 2025, by +3.1 ± 0.8 % so far (+1.2 ± 0.3 % in 30 days): against the cold side the hot side now gives more heat than it did. Some sensor is suspect; one balance cannot tell which.',
    );
    const shift = {
      ...drift,
      kind: 'shift',
      change: -0.031,
      perMonth: null,
      perMonthUncertainty: null,
    } as const;
    expect(driftInWords(shift)).toContain(
      'The balance moved by −3.1 ± 0.8 % at once, on 7 Mar 2025, and stayed',
    );
    expect(driftInWords(shift)).toContain('less heat');
  });

  test('says so where no balance can be checked', () => {
    const daily = { ...RECORDS.daily, balance: RECORDS.daily.balance.map(() => Number.NaN) };
    expect(healthView({ ...RECORDS, daily })!.balance).toContain('cannot be checked');
  });
});

test('a result stored by an earlier method is shown as far as it goes', () => {
  const { probableCleanings, cleaningResults, record, widening, borrowed, ...stored } = TREND;
  const { drift: _, suspectSinceDay: __, ...health } = TREND.health;
  const cycles = TREND.cycles.map(({ began: ___, ...cycle }) => cycle);
  const old = { ...stored, health, cycles } as unknown as UnitTrend;
  expect(completeTrend(old)).toEqual({
    ...TREND,
    ...{ probableCleanings, cleaningResults, record, widening, borrowed },
  });
  const view = unitView({ ...RECORDS, trend: old }, parseUnitAddress('HX-1', {}), 'si');
  expect(view.cycles.rows.map(({ began }) => began)).toEqual(['cleaned', 'the record begins']);
  expect(view.health!.suspectSince).toBeNull();
});
