import { describe, expect, it } from 'vitest';
import {
  type MarkRecord,
  markRequestSchema,
  type ReviewLine,
  type ReviewUnit,
  reviewQuerySchema,
  reviewSchema,
} from '@/lib/contract/review';
import { changePlace } from '@/lib/report/review/change-place';
import { changeWords } from '@/lib/report/review/change-words';
import { changesOf } from '@/lib/report/review/changes';
import { lineMarks } from '@/lib/report/review/line-marks';
import { review } from '@/lib/report/review/review';
import { readReviewAddress, reviewHref } from '@/lib/report/review/review-address';
import { reviewGroups } from '@/lib/report/review/review-groups';
import { countsInWords } from '@/lib/report/review/review-words';
import { statementOf } from '@/lib/report/review/statement';
import type { UnitFacts } from '@/lib/report/review/unit-facts';
import { isoDay } from '@/lib/time/calendar-day';
import { BEFORE_DAY, facts, NOW_DAY } from '../support/statements';
import { linearTrend } from '../support/unit-records';

const kinds = (unit: UnitFacts) => changesOf(unit).map(({ kind }) => kind);
const only = (unit: UnitFacts) => {
  const changes = changesOf(unit);
  expect(changes).toHaveLength(1);
  return changes[0]!;
};
const words = (unit: UnitFacts) => changeWords(only(unit), unit, 'si');
const fall = (day: number) => ({ day, fall: 9e-5, fallUncertainty: 5e-6, share: 0.45 });
const effect = {
  before: 1.88e-4,
  beforeUncertainty: 6e-6,
  after: 1.2e-5,
  afterUncertainty: 6e-6,
  shareRecovered: 0.936,
  shareRecoveredUncertainty: 0.03,
  isPartial: false,
};
const cleaning = (day: number) => ({ day, method: 'jet tubes', effect });

describe('a unit that nothing happened to', () => {
  it('has no line', () => {
    expect(kinds(facts())).toEqual([]);
  });

  it('has none since a day that is not before the newest reading, whatever is said of it', () => {
    const changed = { before: {}, now: { state: 'over-limit' } } as const;
    expect(kinds(facts({ ...changed, beforeDay: NOW_DAY }))).toEqual([]);
    expect(kinds(facts({ ...changed, beforeDay: NOW_DAY - 1 }))).toEqual(['over-limit']);
  });

  it('stays unlisted while it stays over its limit, near it, or without data', () => {
    for (const state of ['over-limit', 'near-limit', 'no-data'] as const)
      expect(kinds(facts({ before: { state }, now: { state } }))).toEqual([]);
  });
});

describe('a limit', () => {
  it('newly near or over is for this week, and says both shares with their uncertainty', () => {
    const near = facts({
      before: { allowanceUsed: 0.86, allowanceUsedUncertainty: 0.03 },
      now: { state: 'near-limit', allowanceUsed: 0.91, allowanceUsedUncertainty: 0.03 },
    });
    expect(only(near)).toMatchObject({ kind: 'near-limit', urgency: 'act' });
    expect(words(near).text).toContain('91 ± 3 % of the allowance used, 86 ± 3 % on');
    const over = facts({
      before: { state: 'near-limit' },
      now: { state: 'over-limit', crossedDay: NOW_DAY - 2 },
    });
    expect(only(over)).toMatchObject({ kind: 'over-limit', urgency: 'act', day: NOW_DAY - 2 });
    expect(words(over).text).toContain('it transfers 12.0 kW less than clean');
  });

  it('is told once: a clean-by day that moved with it has no line of its own', () => {
    const now = { state: 'near-limit', p10Day: NOW_DAY + 5, p50Day: NOW_DAY + 9 } as const;
    expect(kinds(facts({ now }))).toEqual(['near-limit']);
  });

  it('left behind without a cleaning is good to know, and asks what happened', () => {
    for (const [was, is] of [
      ['over-limit', 'near-limit'],
      ['over-limit', 'fouling'],
      ['near-limit', 'clean'],
    ] as const) {
      const back = facts({ before: { state: was }, now: { state: is } });
      expect(only(back)).toMatchObject({ kind: 'below-limit', urgency: 'know' });
      expect(words(back).advice).toContain('No cleaning is recorded');
    }
  });

  it('left behind by a cleaning is told by the cleaning', () => {
    const cleaned = facts({
      before: { state: 'over-limit' },
      now: { state: 'clean', cycleStartDay: NOW_DAY - 3 },
      cleanings: [cleaning(NOW_DAY - 3)],
    });
    expect(kinds(cleaned)).toEqual(['cleaned']);
  });

  it('reached again after a cleaning is news, though the state is the same as before', () => {
    const again = { before: { state: 'near-limit' }, now: { state: 'near-limit' } } as const;
    expect(kinds(facts({ ...again, cleanings: [cleaning(NOW_DAY - 5)] }))).toEqual(['near-limit', 'cleaned']);
  });

  it('keeps its key while the cycle runs, so that marks stay with it', () => {
    const key = (crossedDay: number) => only(facts({ now: { state: 'over-limit', crossedDay } })).key;
    expect(key(NOW_DAY - 1)).toBe(`over-limit@${isoDay(NOW_DAY - 100)}`);
    expect(key(NOW_DAY - 3)).toBe(key(NOW_DAY - 1));
  });
});

describe('a clean-by day', () => {
  it('has moved when it lies outside the P10 to P90 stated then, not when it lies on them', () => {
    const to = (p50Day: number) => kinds(facts({ now: { p50Day } }));
    expect(to(NOW_DAY + 90)).toEqual([]);
    expect(to(NOW_DAY + 89)).toEqual(['clean-by-sooner']);
    expect(to(NOW_DAY + 120)).toEqual([]);
    expect(to(NOW_DAY + 121)).toEqual(['clean-by-later']);
  });

  it('that moved closer than two months is for this week, else to look into; later is good to know', () => {
    const to = (p50Day: number) => only(facts({ now: { p50Day } })).urgency;
    expect(to(NOW_DAY + 60)).toBe('act');
    expect(to(NOW_DAY + 61)).toBe('look');
    expect(to(NOW_DAY + 121)).toBe('know');
  });

  it('says by how many days, and both bands', () => {
    const moved = facts({ now: { p10Day: NOW_DAY + 60, p50Day: NOW_DAY + 70, p90Day: NOW_DAY + 80 } });
    expect(words(moved).text).toMatch(
      /moved 30 days sooner, by more than its uncertainty: .*\(P10 .* – P90 .*\); on .*\(P10 .* – P90 .*\)\./,
    );
  });

  it('goes out of the horizon, or comes into it, unless the band stated then reached that far', () => {
    const beyond = { p10Day: null, p50Day: null, p90Day: null };
    expect(kinds(facts({ now: beyond }))).toEqual(['clean-by-later']);
    expect(kinds(facts({ before: { p90Day: null }, now: beyond }))).toEqual([]);
    expect(kinds(facts({ before: beyond }))).toEqual(['clean-by-sooner']);
    expect(words(facts({ before: beyond })).text).toContain('came within the horizon');
    const early = { ...beyond, p10Day: NOW_DAY + 90 };
    expect(kinds(facts({ before: early }))).toEqual([]);
    expect(kinds(facts({ before: early, now: { p50Day: NOW_DAY + 89 } }))).toEqual(['clean-by-sooner']);
    // The horizon itself moves on by a week: a day it has just uncovered is no move.
    const edge = BEFORE_DAY + 730;
    expect(kinds(facts({ before: beyond, now: { p50Day: edge } }))).toEqual([]);
    expect(kinds(facts({ before: beyond, now: { p50Day: edge - 1 } }))).toEqual(['clean-by-sooner']);
    expect(kinds(facts({ before: beyond, now: { ...beyond, p10Day: NOW_DAY + 80 } }))).toEqual([]);
  });

  it('is not compared where it was or is too early to say', () => {
    const early = { withinHorizon: null, p10Day: null, p50Day: null, p90Day: null };
    expect(kinds(facts({ before: early }))).toEqual([]);
    expect(kinds(facts({ now: early }))).toEqual([]);
  });

  it('says so when another limit governs now', () => {
    const moved = facts({ now: { p50Day: NOW_DAY + 30, limit: 'outlet-temperature' } });
    expect(words(moved).text).toContain('now judged by outlet temperature, then by fouling resistance');
  });
});

describe('the data', () => {
  it('are worse from a fall by a tenth on', () => {
    const to = (usable: number) =>
      kinds(facts({ before: { usable: 0.9 }, now: { usable, worstReason: 'balance-not-closed' } }));
    expect(to(0.801)).toEqual([]);
    // 0.9 − 0.8 is a hair less than a tenth in floating point.
    expect(to(0.8)).toEqual(['data-worse']);
  });

  it('are worse with another main cause only where most readings are lost', () => {
    const of = (usable: number) =>
      kinds(
        facts({
          before: { usable, worstReason: 'spike' },
          now: { usable, worstReason: 'frozen-sensor' },
        }),
      );
    expect(of(0.98)).toEqual([]);
    expect(of(0.5)).toEqual([]);
    expect(of(0.49)).toEqual(['data-worse']);
  });

  it('are worse when a fault has newly made them suspect, and a drift is told as such', () => {
    const now = { usable: 0.93, worstReason: 'frozen-sensor', suspectSinceDay: NOW_DAY - 3 } as const;
    expect(kinds(facts({ before: { usable: 0.95 }, now }))).toEqual(['data-worse']);
    expect(kinds(facts({ before: { usable: 0.95, suspectSinceDay: NOW_DAY - 30 }, now }))).toEqual([]);
    const drift = { sinceDay: NOW_DAY - 20, change: 0.02, changeUncertainty: 0.003 };
    expect(kinds(facts({ before: { usable: 0.95 }, now: { ...now, drift } }))).toEqual(['suspect']);
  });

  it('say the cause, its beginning, and where to begin', () => {
    const worse = facts({
      before: { usable: 0.95 },
      now: { usable: 0.62, worstReason: 'balance-not-closed', suspectSinceDay: NOW_DAY - 4 },
    });
    const { text, advice } = words(worse);
    expect(text).toMatch(/^62 % of its readings of the last 30 days are usable, 95 % on /);
    expect(text).toContain('Main cause: heat balance does not close since');
    expect(advice).toContain('Start with the flow meters');
  });

  it('are suspect when the balance has begun to drift, and only then', () => {
    const drift = { sinceDay: NOW_DAY - 20, change: -0.018, changeUncertainty: 0.003 };
    expect(words(facts({ now: { drift } })).text).toContain('has moved by −1.8 ± 0.3 %');
    expect(kinds(facts({ before: { drift }, now: { drift } }))).toEqual([]);
  });

  it('have stopped after two days of silence, and are told once', () => {
    const silent = (lastReceivedDay: number) =>
      kinds(facts({ lastReceivedDay, lastAcceptedDay: lastReceivedDay }));
    expect(silent(NOW_DAY - 2)).toEqual([]);
    expect(silent(NOW_DAY - 3)).toEqual(['no-data']);
    expect(silent(BEFORE_DAY - 2)).toEqual(['no-data']);
    expect(silent(BEFORE_DAY - 3)).toEqual([]);
  });

  it('keep the key of their silence when it lasts until nothing is said of the unit any more', () => {
    const last = NOW_DAY - 3;
    const first = only(facts({ lastReceivedDay: last, lastAcceptedDay: last }));
    const later = only(facts({ now: { state: 'no-data' }, lastReceivedDay: last, lastAcceptedDay: last }));
    expect(first.key).toBe(`no-data@${isoDay(last + 1)}`);
    expect(later.key).toBe(first.key);
  });

  it('of a unit that stands still alarm nobody', () => {
    const still = facts({ now: { state: 'no-data', worstReason: 'unit-off' } });
    expect(only(still)).toMatchObject({ kind: 'no-data', urgency: 'know' });
    expect(words(still).text).toMatch(/^Standing still since /);
  });
});

describe('cleanings', () => {
  it('are listed one line a day, with what they did; a moved clean-by day is explained by them', () => {
    const cleaned = facts({
      now: { p10Day: NOW_DAY + 300, p50Day: NOW_DAY + 350, p90Day: NOW_DAY + 400, allowanceUsed: 0.07 },
      cleanings: [cleaning(NOW_DAY - 3), cleaning(NOW_DAY - 3)],
    });
    expect(only(cleaned)).toMatchObject({ key: `cleaned@${isoDay(NOW_DAY - 3)}`, urgency: 'know' });
    expect(words(cleaned).text).toContain(
      '(jet tubes): the fouling fell from 0.188 ± 0.006 m²·K/kW to 0.012 ± 0.006 m²·K/kW, 94 ± 3 % of it recovered; 7 ± 3 % of the allowance used now',
    );
  });

  it('that left a part of the fouling say so; one too young to be told says that', () => {
    const advice = (changes: Partial<typeof effect> | null) => {
      const done = { ...cleaning(NOW_DAY - 3), effect: changes === null ? null : { ...effect, ...changes } };
      return words(facts({ cleanings: [done] })).advice;
    };
    expect(advice({})).toContain('shows what the cleaning brought');
    expect(advice({ isPartial: true })).toContain('left a part of the fouling');
    expect(advice(null)).toContain('says what is missing');
  });

  it('that nobody recorded are asked about once: a fall found again within three days is the same', () => {
    const known = { before: { probableCleanings: [NOW_DAY - 10] } };
    expect(kinds(facts({ ...known, falls: [fall(NOW_DAY - 13)] }))).toEqual([]);
    expect(kinds(facts({ ...known, falls: [fall(NOW_DAY - 14)] }))).toEqual(['probable-cleaning']);
    expect(words(facts({ falls: [fall(NOW_DAY - 4)] })).text).toContain(
      'the fouling fell by 0.090 ± 0.005 m²·K/kW (45 % of the allowance)',
    );
  });
});

describe('a line', () => {
  it('leads to its place: the running cycle, or the days around it', () => {
    const near = only(facts({ now: { state: 'near-limit' } }));
    const place = { today: NOW_DAY, units: null };
    expect(changePlace('E/1', near, place)).toBe('/units/E%2F1?period=cycle#charts');
    const done = only(facts({ cleanings: [cleaning(NOW_DAY - 3)] }));
    expect(changePlace('E-1', done, { today: NOW_DAY, units: 'us' })).toBe(
      `/units/E-1?from=${isoDay(NOW_DAY - 33)}&to=${isoDay(NOW_DAY)}&units=us#cycles`,
    );
  });

  it('has a key that a mark can name', () => {
    const every = [
      ...changesOf(facts({ now: { state: 'over-limit', cycleStartDay: null } })),
      ...changesOf(facts({ now: { usable: 0.2, worstReason: 'outside-fluid-range' } })),
      ...changesOf(facts({ falls: [fall(NOW_DAY - 2)] })),
    ];
    for (const { key } of every)
      expect(markRequestSchema.safeParse({ tag: 'E-1', line: key, kind: 'seen', by: 'A' }).success).toBe(
        true,
      );
  });

  it('is seen until somebody opens it again; the last assignment holds; every mark stays', () => {
    const mark = (kind: MarkRecord['kind'], text: string | null, at: number): MarkRecord => ({
      unitId: 1,
      line: 'near-limit@2026-01-01',
      kind,
      text,
      by: 'Shift B',
      at: Date.UTC(2026, 10, 25, at),
    });
    const marks = [
      mark('assigned', 'Ana', 6),
      mark('seen', null, 7),
      mark('note', 'ask the vendor', 8),
      mark('assigned', 'Rui', 9),
    ];
    expect(lineMarks(marks, 'Europe/Lisbon')).toMatchObject({ isSeen: true, assignedTo: 'Rui' });
    const again = lineMarks([...marks, mark('reopened', null, 10)], 'Europe/Lisbon');
    expect(again.isSeen).toBe(false);
    expect(again.marks).toHaveLength(5);
    expect(again.marks[0]).toEqual({
      kind: 'assigned',
      text: 'Ana',
      by: 'Shift B',
      at: '2026-11-25T06:00:00+00:00',
    });
  });
});

describe('the list', () => {
  const line = (key: string, urgency: ReviewLine['urgency'], isSeen: boolean) =>
    ({ key, urgency, isSeen }) as ReviewLine;
  const unit = (tag: string, lines: ReviewLine[]) => ({ tag, lines }) as ReviewUnit;

  it('puts a unit by its most urgent unseen line; what is seen stands last and stays listed', () => {
    const groups = reviewGroups({
      units: [
        unit('A', [line('a1', 'act', true), line('a2', 'know', false)]),
        unit('B', [line('b1', 'act', false), line('b2', 'know', false)]),
        unit('C', [line('c1', 'look', true)]),
      ],
    });
    expect(
      groups.map(({ name, units }) => [name, units.map(({ tag, lines }) => [tag, lines.length])]),
    ).toEqual([
      ['act', [['B', 2]]],
      ['know', [['A', 1]]],
      [
        'seen',
        [
          ['A', 1],
          ['C', 1],
        ],
      ],
    ]);
  });

  it('says in words what needs somebody', () => {
    const counts = { units: 37, act: 1, look: 2, know: 0, seen: 0, unchanged: 34 };
    expect(countsInWords({ counts })).toEqual({
      main: '1 unit needs somebody this week',
      rest: '2 to look into, 34 of 37 without a change',
    });
    expect(countsInWords({ counts: { ...counts, act: 0 } }).main).toBe('Nothing needs somebody this week');
  });

  it('without any unit is still a document of the contract', () => {
    const empty = review(
      {
        query: {},
        sinceDay: BEFORE_DAY,
        today: null,
        sites: [],
        units: [],
        notAnalysed: [],
        marks: [],
        clock: 0,
        due: 0,
      },
      'si',
    );
    expect(reviewSchema.parse(empty).counts.units).toBe(0);
  });
});

describe('the address', () => {
  it('is read leniently, and strictly as a query of the API', () => {
    expect(readReviewAddress({ since: '2026-02-30', show: 'unseen', site: '', units: 'us' })).toEqual({
      show: 'unseen',
    });
    expect(reviewQuerySchema.safeParse({ since: '2026-02-30' }).success).toBe(false);
    expect(readReviewAddress({ since: ['2026-02-28', 'x'], assigned: 'nobody' })).toEqual({
      since: '2026-02-28',
      assigned: 'nobody',
    });
  });

  it('is written without its defaults', () => {
    expect(reviewHref({})).toBe('/review');
    expect(reviewHref({ site: 'North works' }, { since: '2026-11-18' })).toBe(
      '/review?site=North+works&since=2026-11-18',
    );
  });
});

describe('a statement', () => {
  it('holds what a trend says, as plain JSON', () => {
    const trend = linearTrend();
    const said = statementOf(trend);
    expect(said).toMatchObject({
      state: 'fouling',
      limit: 'fouling-resistance',
      p50Day: trend.limits[0]!.p50Day,
      cycleStartDay: trend.cycles[1]!.startDay,
      usable: 0.97,
      drift: null,
    });
    expect(JSON.parse(JSON.stringify(said))).toEqual(said);
  });

  it('of results without drift and falls, as an earlier method left them, says there are none', () => {
    const { probableCleanings: _, health, ...trend } = linearTrend();
    const old = { ...trend, health: { usable: health.usable, worstReason: null, sinceDay: null } };
    expect(statementOf(old as unknown as ReturnType<typeof linearTrend>)).toMatchObject({
      probableCleanings: [],
      drift: null,
      suspectSinceDay: null,
    });
  });
});
