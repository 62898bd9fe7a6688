import { describe, expect, it } from 'vitest';
import { pastRecordSchema } from '@/lib/contract/past-record';
import type { Hindcast, Widening } from '@/lib/core/pipeline/unit-trend';
import { errorPicture } from '@/lib/report/record/error-picture';
import { madeAt, pastProjections, worstMisses } from '@/lib/report/record/past-projections';
import { readRecordAddress, recordHref } from '@/lib/report/record/record-address';
import { recordCsv } from '@/lib/report/record/record-csv';
import { recordDocument } from '@/lib/report/record/record-document';
import { recordSummary, verdictOf } from '@/lib/report/record/record-summary';
import { recordView } from '@/lib/report/record/record-view';
import type { FleetRecords } from '@/lib/report/records';
import { fleetOf, TODAY } from '../support/fleet-records';

const START = TODAY - 400;

/** A projection made half way through a cycle of 100 days that came true on day 100, its P50 so many days late. */
function hindcast(late: number | null, given: Partial<Hindcast> = {}): Hindcast {
  const reachedDay = START + 100;
  const p50Day = late === null ? null : reachedDay + late;
  const held = late !== null && Math.abs(late) <= 10;
  return {
    cycleStartDay: START,
    madeDay: START + 50,
    shareOfLife: 0.5,
    level: 4e-4,
    isLimit: true,
    reachedDay,
    reachedUncertainty: 1.5,
    p10Day: p50Day === null ? null : p50Day - 10,
    p50Day,
    p90Day: p50Day === null ? null : p50Day + 10,
    held,
    score: late === null ? 3 : Math.abs(late) / 10,
    ...given,
  };
}

/** A fleet whose units have these past projections. */
function fleetWith(records: Record<string, Hindcast[]>, widening?: Record<string, Widening>): FleetRecords {
  const fleet = fleetOf(
    Object.keys(records).map((tag) => ({ tag, service: tag.startsWith('A') ? 'Wash heater' : undefined })),
  );
  for (const { record, trend } of fleet.units) {
    trend!.record = records[record.tag]!;
    trend!.widening = widening?.[record.tag] ?? trend!.widening;
  }
  return fleet;
}

const address = readRecordAddress({});
const many = (count: number, late: number) => Array.from({ length: count }, () => hindcast(late));

describe('the record of past projections', () => {
  it('says in a sentence how many came true within their band and how far off half of them were', () => {
    const fleet = fleetWith({ 'A-1': [...many(6, 4), ...many(1, 40)], 'B-2': many(3, -4) });
    const { main, detail } = recordView(fleet, address).sentence;
    expect(main).toBe('Of 10 past projections made half way through a cycle, 9 came true within their band');
    expect(detail).toContain(
      'Half of them were within 4 days, and half within 8.0 % of the time that was left.',
    );
    expect(detail).toContain('P10 to P90 should hold 80 %; it held 90 % (by chance 60 % to 98 %)');
  });

  it('counts a late and an early projection by the sign of P50 less the day that came', () => {
    const summary = recordSummary(
      pastProjections(fleetWith({ 'A-1': [hindcast(3), hindcast(-2), hindcast(-9), hindcast(0)] }).units),
    );
    expect(summary).toMatchObject({ count: 4, tooLate: 1, tooEarly: 2, noDay: 0, held: 4 });
    expect(summary.medianErrorDays).toBe(2.5);
    expect(summary.medianErrorShare).toBeCloseTo(0.05, 12);
  });

  it('takes a projection without a day as further out than any with one', () => {
    const summaryOf = (hindcasts: Hindcast[]) =>
      recordSummary(pastProjections(fleetWith({ 'A-1': hindcasts }).units));
    expect(summaryOf([hindcast(5), hindcast(7), hindcast(null)])).toMatchObject({
      medianErrorDays: 7,
      noDay: 1,
    });
    expect(summaryOf([hindcast(5), hindcast(null)]).medianErrorDays).toBeNull();
    expect(summaryOf([hindcast(null), hindcast(null)]).medianErrorDays).toBeNull();
  });

  it('calls a record too sure or too careful only where chance does not explain it', () => {
    const verdict = (held: number, missed: number) =>
      verdictOf(
        recordSummary(pastProjections(fleetWith({ 'A-1': [...many(held, 0), ...many(missed, 30)] }).units)),
      );
    expect(verdict(0, 0)).toBeNull();
    // The 95 % Wilson interval of 14 in 20 is 0.48 to 0.86; of 10 in 20, 0.30 to 0.70; of 40 in 40, 0.91 to 1.
    expect(verdict(14, 6)).toBe('as-aimed');
    expect(verdict(10, 10)).toBe('too-sure');
    expect(verdict(40, 0)).toBe('too-wide');
  });

  it('keeps shares of life apart, and follows the one in the address', () => {
    const fleet = fleetWith({
      'A-1': [hindcast(30, { shareOfLife: 0.25 }), hindcast(2), hindcast(1, { shareOfLife: 0.75 })],
    });
    expect(madeAt(pastProjections(fleet.units), 25)).toHaveLength(1);
    const view = recordView(fleet, readRecordAddress({ life: '25' }));
    expect(view.sentence.main).toBe(
      'The one past projection made a quarter of the way through a cycle did not come true within its band',
    );
    expect(view.byLife.map(({ name, held }) => [name, held])).toEqual([
      ['A quarter of the way', '0 of 1, 0 %'],
      ['Half way', '1 of 1, 100 %'],
      ['Three quarters of the way', '1 of 1, 100 %'],
    ]);
  });

  it('lists misses by how far they lay outside their band, each with the cycle it was made in', () => {
    const fleet = fleetWith({ 'A-1': [hindcast(40), hindcast(3)], 'B-2': [hindcast(-90), hindcast(null)] });
    expect(worstMisses(pastProjections(fleet.units)).map(({ score }) => score)).toEqual([9, 4, 3]);
    const { rows, count } = recordView(fleet, address).misses;
    expect(count).toBe(3);
    expect(rows[0]).toMatchObject({ tag: 'B-2', error: '90 days too early', score: '9.0 ×' });
    expect(rows[0]!.href).toMatch(/^\/units\/B-2\?from=2025-10-21&to=2026-02-12$/);
    expect(rows[2]).toMatchObject({ error: 'no day given', projected: 'not within the horizon' });
  });

  it('groups by site and service, those without a service last', () => {
    const view = recordView(fleetWith({ 'B-2': many(2, 4), 'A-1': many(3, 4) }), address);
    expect(view.byService.map(({ name, count }) => [name, count])).toEqual([
      ['Wash heater', '3'],
      ['no service stated', '2'],
    ]);
    expect(view.bySite.map(({ name, count }) => [name, count])).toEqual([['Quay', '5']]);
  });

  it('names whose record spreads the bands, and by how much', () => {
    const fleet = fleetWith(
      { 'A-1': [], 'A-2': [], 'B-1': [], 'B-2': [] },
      {
        'A-1': { factor: 1.62, from: 'unit', count: 12 },
        'A-2': { factor: 1.2, from: 'fleet', count: 96 },
        'B-1': { factor: 1.2, from: 'fleet', count: 96 },
        'B-2': { factor: 1, from: 'none', count: 4 },
      },
    );
    const { widening, hasAny } = recordView(fleet, address);
    expect(hasAny).toBe(false);
    expect(widening.map(({ sentence }) => sentence)).toEqual([
      '1 unit: P10 and P90 1.62 times as far from P50, by the unit’s own record, which held the day more rarely than chance explains.',
      '2 units: P10 and P90 1.20 times as far from P50, by the 96 past projections of the fleet.',
      '1 unit: as fitted, for there are only 4 past projections to go by.',
    ]);
    expect(widening[0]!.units).toEqual([{ tag: 'A-1', href: '/units/A-1', factor: '1.62' }]);
  });

  it('reads only what it knows from the address, and writes it back', () => {
    expect(readRecordAddress({ life: '30', scale: 'years' })).toEqual({
      life: 50,
      scale: 'days',
      units: null,
    });
    expect(recordHref(readRecordAddress({ life: '75', scale: 'share', units: 'us' }))).toBe(
      '/record?life=75&scale=share&units=us',
    );
    expect(recordHref(address)).toBe('/record');
  });
});

describe('the picture of past errors', () => {
  const rowsOf = (...lates: (number | null)[]) => [
    pastProjections(fleetWith({ 'A-1': lates.map((late) => hindcast(late)) }).units),
  ];

  it('puts the day that came in the middle, early errors left and late ones right', () => {
    const { reach, rows } = errorPicture(rowsOf(0, -9, 9), 'days');
    expect(reach).toBe(10);
    const [early, none, late] = rows[0]!.piles;
    expect(none!.at).toBeCloseTo(0.5, 12);
    expect(early!.at).toBeLessThan(0.1);
    expect(late!.at).toBeCloseTo(1 - early!.at, 12);
    expect(rows[0]!.middle).toBeCloseTo(0.5, 12);
  });

  it('is as wide as 19 in 20 ask for, and counts the rest at its ends', () => {
    const most = Array.from({ length: 19 }, () => 5);
    const { reach, rows } = errorPicture(rowsOf(...most, 300, null), 'days');
    expect(reach).toBe(5);
    expect(rows[0]).toMatchObject({ beyondLate: 2, beyondEarly: 0 });
    expect(rows[0]!.piles).toEqual([{ at: expect.closeTo(60.5 / 61, 12), held: 19, missed: 0 }]);
  });

  it('has no middle where half gave no day, and none without any', () => {
    expect(errorPicture(rowsOf(1, null, null), 'days').rows[0]!.middle).toBeNull();
    expect(errorPicture([[]], 'days').rows[0]).toEqual({
      piles: [],
      middle: null,
      beyondEarly: 0,
      beyondLate: 0,
    });
  });

  it('can be in shares of the time that was left', () => {
    const { reach, rows } = errorPicture(rowsOf(5), 'share');
    expect(reach).toBe(0.1);
    expect(rows[0]!.middle).toBeCloseTo((0.1 / 0.1 + 1) / 2, 12);
  });
});

describe('the record for other programs', () => {
  const fleet = fleetWith({ '=A': [hindcast(4), hindcast(null, { score: Number.POSITIVE_INFINITY })] });

  it('is what the contract says', () => {
    const document = pastRecordSchema.parse(JSON.parse(JSON.stringify(recordDocument(fleet))));
    expect(document.byShareOfLife[1]).toMatchObject({ shareOfLife: 0.5, count: 2, held: 1, noDay: 1 });
    expect(document.projections[0]).toMatchObject({ tag: '=A', errorDays: 4, errorShare: 0.08, held: true });
    expect(document.projections[1]).toMatchObject({ p50: null, score: null });
  });

  it('as CSV has a row for each projection, and no text a spreadsheet would run', () => {
    const [head, first] = recordCsv(recordDocument(fleet)).split('\r\n');
    expect(head).toContain('share_of_life');
    expect(first).toMatch(/^'=A,/);
  });
});
