import { describe, expect, test } from 'vitest';
import type { CleanReferenceRecord } from '@/lib/contract/clean-references';
import type { LearnedFactors } from '@/lib/core/clean/learn-factors';
import type { LearnedFilms } from '@/lib/core/clean/learn-two-films';
import type { ProposedReference, ReferenceRecords } from '@/lib/report/records';
import { factorsInWords } from '@/lib/report/reference/factor-words';
import { proposalOf, readReferenceEntries } from '@/lib/report/reference/reference-entries';
import { referenceView } from '@/lib/report/reference/reference-view';
import { DAY_MS, EPOCH } from '../support/forward-readings';
import { LIMIT, NOW, unitRecords } from '../support/unit-records';

const UNIT = unitRecords();
const PERIOD = { from: EPOCH + 40 * DAY_MS, to: EPOCH + 45 * DAY_MS };

const reference: CleanReferenceRecord = {
  number: 1,
  from: PERIOD.from,
  method: 'two-films',
  unitVersion: 1,
  factors: { hot: 1.25, wall: 1, cold: 0.9 },
  uncertainty: { hot: 0.021, cold: 0.034 },
  evidence: { ...PERIOD, readings: 120 },
  acceptedBy: 'process engineer',
  reason: 'acid wash',
  acceptedAt: NOW,
};

const films: LearnedFilms = {
  factors: reference.factors,
  uncertainty: { hot: 0.021, cold: 0.034 },
  correlation: -0.999,
  condition: 44.7,
  autocorrelation: 0.3,
  scatter: 0.004,
  scatterOfOneScale: 0.02,
  gain: 1.2,
  hotFlow: [19, 21],
  coldFlow: [24, 26],
  doubts: ['collinear', 'no-better'],
  ...PERIOD,
  readings: 120,
};
const scale = { scale: 1.08, uncertainty: 0.004, ...PERIOD, readings: 120 };
const told: LearnedFactors = {
  factors: films.factors,
  uncertainty: films.uncertainty,
  evidence: { ...PERIOD, readings: 120 },
  refusal: null,
  scale,
  films: { ...films, doubts: [] },
};
const untold: LearnedFactors = { ...told, factors: null, refusal: { kind: 'films-not-told-apart' }, films };
const proposal = (learned: LearnedFactors): ProposedReference => ({
  method: 'two-films',
  period: PERIOD,
  from: PERIOD.from,
  unitVersion: 1,
  learned,
  effect: { before: UNIT.trend!, after: { ...UNIT.trend!, foulingResistance: 0.2 * LIMIT }, asOf: NOW },
});

const records = (changes: Partial<ReferenceRecords> = {}): ReferenceRecords => ({
  ...UNIT,
  sensitivity: null,
  entries: readReferenceEntries({}),
  usualPeriod: PERIOD,
  proposed: null,
  faults: [],
  ...changes,
});

describe('the page of the clean reference', () => {
  test('says what holds, and that nothing was accepted yet', () => {
    const view = referenceView(records(), 'si');
    expect(view.inForce).toEqual([
      {
        since: 'the beginning',
        datasheet: 'datasheet version 1',
        reference: 'clean films as on the datasheet',
        factors: 'none: as on the datasheet',
      },
    ]);
    expect(view.history).toEqual([]);
    expect(view.form.after).toBe(0);
    expect([view.form.from.value, view.form.to.value]).toEqual(['2025-02-15T00:00', '2025-02-20T00:00']);
  });

  test('lists every reference with who, when, why and from what, and marks those in force', () => {
    const [basis] = UNIT.bases;
    const older = { ...reference, number: 1 };
    const newer = { ...reference, number: 2, method: 'datasheet' as const, evidence: null };
    const view = referenceView(
      records({ references: [older, newer], bases: [{ ...basis!, reference: 2, unitVersion: 1 }] }),
      'si',
    );
    expect(view.history.map(({ number, isInForce }) => [number, isInForce])).toEqual([
      [2, true],
      [1, false],
    ]);
    expect(view.history[1]).toMatchObject({
      method: 'two films, learned',
      factors: 'hot film 1.250 ± 0.021, cold film 0.900 ± 0.034',
      learnedFrom: '120 readings, 15 Feb 2025 to 20 Feb 2025',
      acceptedBy: 'process engineer',
      reason: 'acid wash',
    });
  });

  test('says so where a reference was learned with another version of the datasheet', () => {
    const [basis] = UNIT.bases;
    const bases = [{ ...basis!, unitVersion: 2, reference: 1 }];
    const [warning] = referenceView(records({ references: [reference], bases }), 'si').warnings;
    expect(warning).toContain('learned with datasheet version 1');
  });

  test('shows what was worked out, with the identifiability test and the effect', () => {
    const view = referenceView(records({ proposed: proposal(told) }), 'si').proposal!;
    expect(view.refusal).toEqual([]);
    expect(view.verdict).toContain('can be told apart');
    expect(view.comparison.map(({ scatter }) => scatter)).toEqual(['2.00 %', '0.40 %']);
    expect(view.effect.map(({ label }) => label)).toEqual([
      'Fouling resistance today',
      'Share of the allowance',
      'Clean by',
    ]);
    expect(view.effect[0]!.before).not.toBe(view.effect[0]!.after);
  });

  test('says why two films are refused, and what it takes, in the reader’s units', () => {
    const [why, ...doubts] = referenceView(records({ proposed: proposal(untold) }), 'us').proposal!.refusal;
    expect(why).toContain('varied too little');
    expect(doubts[0]).toMatch(/condition index 44\.7.*less than 10.*klb\/h/);
    expect(doubts[1]).toContain('One factor on the whole resistance fits as well');
  });

  test('shows how much hangs on an exponent', () => {
    const sensitivity = {
      day: 20200,
      films: { hotShare: 0.45, wallShare: 0.05, hotExponent: 0.7, coldExponent: 0.7 },
      foulingResistance: 1e-4,
      allowance: 2e-4,
      rows: [
        { name: 'hotShare' as const, step: 0.1, value: 0.55, foulingResistance: null },
        { name: 'hotExponent' as const, step: -0.1, value: 0.6, foulingResistance: 9e-5 },
      ],
    };
    const { rows } = referenceView(records({ sensitivity }), 'si').sensitivity!;
    expect(rows.map(({ label, share }) => [label, share])).toEqual([
      ['As they stand', '50 %'],
      ['Exponent of the hot film 0.60 instead of 0.70', '45 %'],
      ['Share of the hot film 0.55 instead of 0.45', '–'],
    ]);
    expect(rows[1]!.change).toBe('−0.0100 m²·K/kW');
  });
});

describe('factors in words', () => {
  test('are one for all, one for each film, or none', () => {
    const none = { hot: null, cold: null };
    expect(factorsInWords({ hot: 1, wall: 1, cold: 1 }, none)).toBe('none: as on the datasheet');
    expect(factorsInWords({ hot: 1.1, wall: 1.1, cold: 1.1 }, { hot: 0.004, cold: 0.004 })).toBe(
      '1.100 ± 0.004 on all resistances',
    );
  });
});

describe('what is asked for in the address', () => {
  const ask = (params: Record<string, string>) => proposalOf(readReferenceEntries(params), 'Europe/Lisbon');

  test('is nothing without a method', () => {
    expect(ask({ from: '2026-05-04T08:00' })).toEqual({ proposal: null, faults: [] });
  });

  test('is read by the clock of the site', () => {
    const { proposal: asked } = ask({ method: 'scale', from: '2026-05-04T08:00', to: '2026-05-09T08:00' });
    expect(asked).toEqual({
      method: 'scale',
      learnFrom: { from: '2026-05-04T07:00:00.000Z', to: '2026-05-09T07:00:00.000Z' },
    });
    expect(ask({ method: 'datasheet', holds: 'beginning' }).proposal).toMatchObject({ from: null });
    expect(ask({ method: 'datasheet', holds: 'at', holdsAt: '2026-01-04T08:00' }).proposal).toMatchObject({
      from: '2026-01-04T08:00:00.000Z',
    });
  });

  test('names the time that cannot be read, or that ends before it begins', () => {
    const fields = (params: Record<string, string>) => ask(params).faults.map(({ field }) => field);
    expect(fields({ method: 'scale', from: 'x', to: '2026-05-09T08:00' })).toEqual(['from']);
    expect(fields({ method: 'scale', from: '2026-05-09T08:00', to: '2026-05-04T08:00' })).toEqual(['to']);
    expect(fields({ method: 'test', holds: 'at', holdsAt: '2026-10-25T01:30' })).toEqual(['holdsAt']);
  });
});
