import { describe, expect, it } from 'vitest';
import { type CleaningRecord, compareMethods } from '@/lib/core/cycles/compare-methods';

const HOUR_MS = 3_600_000;

function cleaning(tag: string, method: string, of: Partial<CleaningRecord> = {}): CleaningRecord {
  return {
    tag,
    method,
    shareRecovered: null,
    daysUntilBack: null,
    cycleDaysAfter: null,
    cost: null,
    worth: null,
    durationMs: null,
    ...of,
  };
}
/** One cleaning per unit with shares evenly between two values. */
const units = (method: string, count: number, [low, high]: [number, number]) =>
  Array.from({ length: count }, (_, i) =>
    cleaning(`E-${i}`, method, { shareRecovered: low + ((high - low) * i) / (count - 1) }),
  );

describe('a cleaning method', () => {
  it('has the middle of its cleanings, its units, cost, hours and worth', () => {
    const { methods } = compareMethods([
      cleaning('A', 'jet', { shareRecovered: 0.9, cost: 1000, worth: 3000, durationMs: 4 * HOUR_MS }),
      cleaning('A', 'jet', { shareRecovered: 0.7, cost: 3000, worth: 1000, durationMs: 8 * HOUR_MS }),
      cleaning('B', 'jet', { shareRecovered: 0.8, cost: 2000, durationMs: 6 * HOUR_MS }),
      cleaning('B', 'jet'),
      cleaning('B', 'acid'),
    ]);
    expect(methods.map(({ method, cleanings, units }) => [method, cleanings, units])).toEqual([
      ['jet', 4, 2],
      ['acid', 1, 1],
    ]);
    expect(methods[0]).toMatchObject({ cost: 2000, hours: 6, worthPerCost: 1 });
    expect(methods[0]!.shareRecovered).toEqual({
      count: 3,
      median: 0.8,
      low: 0.7,
      high: 0.9,
      isFullRange: true,
      interval: null,
    });
    expect(methods[1]).toMatchObject({ shareRecovered: null, cost: null, hours: null, worthPerCost: null });
  });

  it('has percentiles and an interval of its median from enough cleanings', () => {
    const { methods } = compareMethods(units('jet', 11, [0, 1]));
    expect(methods[0]!.shareRecovered).toMatchObject({
      median: 0.5,
      low: 0.1,
      high: 0.9,
      isFullRange: false,
    });
    expect(methods[0]!.shareRecovered!.interval).toMatchObject({ low: 0.1, high: 0.9 });
  });

  it('says how long it lasts, with those that still last, or that it is not yet to be told', () => {
    const back = (...of: Partial<CleaningRecord>[]) =>
      compareMethods(of.map((own) => cleaning('A', 'jet', own))).methods[0]!.back;
    expect(back({ daysUntilBack: 50 }, { daysUntilBack: 90 }, { cycleDaysAfter: 60 })).toEqual({
      state: 'known',
      days: 90,
      cleanings: 3,
      cameBack: 2,
    });
    expect(back({ daysUntilBack: 50 }, { cycleDaysAfter: 60 }, { cycleDaysAfter: 70 })).toEqual({
      state: 'not-yet',
      days: null,
      cleanings: 3,
      cameBack: 1,
    });
    expect(back({}, {})).toEqual({ state: 'unknown', days: null, cleanings: 0, cameBack: 0 });
  });

  it('comes in an order that does not depend on that of the cleanings', () => {
    const records = [...units('jet', 5, [0.5, 0.9]), ...units('acid', 5, [0.4, 0.8])];
    expect(compareMethods([...records].reverse())).toEqual(compareMethods(records));
  });
});

describe('a difference between methods', () => {
  it('is supported where chance does not explain it', () => {
    const { differences } = compareMethods([
      ...units('jet', 8, [0.8, 0.95]),
      ...units('acid', 7, [0.4, 0.6]),
    ]);
    expect(differences).toMatchObject([{ methods: ['jet', 'acid'], state: 'supported' }]);
    expect(differences[0]!.difference).toBeCloseTo(0.375, 12);
    // All 56 pairs one way: SciPy 1.17, mannwhitneyu(method='asymptotic').
    expect(differences[0]!.probability).toBeCloseTo(0.0014600619162422478, 12);
  });

  it('is not where the samples overlap', () => {
    const { differences } = compareMethods([...units('jet', 8, [0.5, 0.9]), ...units('acid', 7, [0.5, 0.9])]);
    expect(differences[0]).toMatchObject({ state: 'not-supported' });
  });

  it('cannot be told from few units, however many cleanings they had', () => {
    const many = Array.from({ length: 20 }, () => cleaning('A', 'acid', { shareRecovered: 0.2 }));
    const { differences } = compareMethods([...units('jet', 8, [0.8, 0.95]), ...many]);
    expect(differences[0]).toMatchObject({ state: 'too-few', probability: null });
    expect(differences[0]!.difference).toBeCloseTo(-0.675, 12);
  });

  it('needs more the more methods there are: three comparisons raise a probability threefold', () => {
    const three = compareMethods([
      ...units('jet', 7, [0.8, 0.95]),
      ...units('acid', 6, [0.4, 0.6]),
      ...units('brush', 5, [0.5, 0.7]),
    ]).differences;
    const alone = compareMethods([...units('jet', 7, [0.8, 0.95]), ...units('acid', 6, [0.4, 0.6])]);
    expect(three).toHaveLength(3);
    expect(three[0]!.probability! / alone.differences[0]!.probability!).toBeCloseTo(3, 9);
  });

  it('is null where a share is known for only one of them', () => {
    const { differences } = compareMethods([...units('jet', 6, [0.8, 0.9]), cleaning('A', 'acid')]);
    expect(differences[0]).toMatchObject({ state: 'too-few', difference: null });
  });
});
