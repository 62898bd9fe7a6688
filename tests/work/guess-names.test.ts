import { describe, expect, it } from 'vitest';
import { makeRandom } from '@/lib/core/stats/random';
import { assign, type Pair } from '@/lib/ingest/guess/assign';
import { emptySample, takeCell } from '@/lib/ingest/guess/column-sample';
import { guessColumns } from '@/lib/ingest/guess/guess-columns';
import { nameMeaning } from '@/lib/ingest/guess/name-meaning';
import { nameRuns } from '@/lib/ingest/guess/name-runs';
import { TagFinder } from '@/lib/ingest/guess/tag-finder';
import { unitTargets } from '@/lib/ingest/guess/unit-targets';
import { StatusWords } from '@/lib/ingest/status-words';
import { plainUnit } from '../support/units';

describe('tags in names', () => {
  const finder = new TagFinder(['E-101', 'E-101A', 'PH-121', 'HX 7', '10-E-205']);
  const tagsIn = (name: string) => finder.find(nameRuns(name)).tags.map(({ tag }) => tag);

  it.each([
    ['E-101.TI', ['E-101']],
    ['u1_e101_ti_hot', ['E-101']],
    ['101-E TI', ['E-101']],
    ['E-0101 inlet', ['E-101']],
    ['E101A_TI', ['E-101A']],
    ['hx007.t', ['HX 7']],
    ['10E205-TI', ['10-E-205']],
    ['20E205-TI', []],
    ['TE-101B', ['E-101', 'E-101A']],
    ['TI-2053', ['10-E-205']],
    ['E-101 to PH-121', ['E-101', 'PH-121']],
  ])('%s', (name, tags) => {
    expect(tagsIn(name)).toEqual(tags);
  });

  it('take a sister or an unregistered number for something else', () => {
    expect(finder.find(nameRuns('E101B_TI_HOT'))).toMatchObject({ tags: [], foreign: 'E-101B' });
    expect(finder.find(nameRuns('E-999.TI'))).toMatchObject({ tags: [], foreign: 'E-999' });
  });

  it('leave the letters of a tag out of what the words say', () => {
    const { rest } = finder.find(nameRuns('PH121_TI_HOT_IN'));
    expect(nameMeaning(rest, false)).toMatchObject({
      other: null,
      side: { what: 'hot' },
      end: { what: 'in' },
    });
  });
});

describe('words in names', () => {
  const meaning = (name: string, isDescription = false) => {
    const { measured, side, end, other } = nameMeaning(nameRuns(name), isDescription);
    return [measured?.what ?? null, side?.what ?? null, end?.what ?? null, other];
  };

  it.each([
    ['TIHOTIN', ['temperature', 'hot', 'in', null]],
    ['ColdOutTemp', ['temperature', 'cold', 'out', null]],
    ['CWS temp', ['temperature', 'cold', 'in', null]],
    ['dP_hot', ['pressure-drop', 'hot', null, null]],
    ['FI_COLD [m3/h]', ['flow', 'cold', null, null]],
    ['TIC-7.OUT', ['temperature', null, 'out', 'OUT']],
    ['TI_HOT_SP', ['temperature', 'hot', null, 'SP']],
    ['PI-101 hot', [null, 'hot', null, 'PI']],
    ['dT_cold', [null, 'cold', null, 'DT']],
    ['PT100 hot in', [null, 'hot', 'in', null]],
    ['hot differential pressure', ['pressure-drop', 'hot', null, null]],
    ['hot inlet pressure', [null, 'hot', 'in', 'PRESSURE']],
  ])('%s', (name, expected) => {
    expect(meaning(name)).toEqual(expected);
  });

  it('of a description do not mistake small words for instruments', () => {
    expect(meaning('temperature at 3 m, hot inlet', true)).toEqual(['temperature', 'hot', 'in', null]);
  });
});

describe('the assignment', () => {
  /** The greatest total worth, by trying everything. */
  function best(pairs: readonly Pair[], rows: number[], taken = new Set<number>()): number {
    const [row, ...rest] = rows;
    if (row === undefined) return 0;
    const without = best(pairs, rest, taken);
    const own = pairs.filter((pair) => pair.row === row && !taken.has(pair.place));
    return Math.max(
      without,
      ...own.map(({ place, worth }) => worth + best(pairs, rest, new Set([...taken, place]))),
    );
  }

  it('is the best one as a whole, and none stands twice', () => {
    const random = makeRandom(5);
    for (let round = 0; round < 300; round++) {
      const pairs: Pair[] = [];
      for (let row = 0; row < 6; row++)
        for (let place = 0; place < 5; place++)
          if (random.uniform() < 0.5) pairs.push({ row, place, worth: 0.1 + 10 * random.uniform() });
      const chosen = assign(pairs);
      expect(new Set(chosen.map(({ row }) => row)).size).toBe(chosen.length);
      expect(new Set(chosen.map(({ place }) => place)).size).toBe(chosen.length);
      const total = chosen.reduce((sum, { worth }) => sum + worth, 0);
      expect(total).toBeCloseTo(best(pairs, [0, 1, 2, 3, 4, 5]), 9);
    }
  });
});

describe('guesses of columns', () => {
  const units = [unitTargets(plainUnit('E-1')), unitTargets(plainUnit('E-2'))];
  const reading = { decimalComma: false, status: new StatusWords([]) };
  const column = (name: string, level: number, unit: string | null = 'Cel') => {
    const sample = emptySample({ name, description: '', unit });
    for (let i = 0; i < 40; i++)
      takeCell(sample, i === 7 ? 'Bad' : (level + Math.sin(i)).toFixed(2), reading);
    return sample;
  };
  const guess = (columns: ReturnType<typeof column>[], titles = ['hourly']) =>
    guessColumns({ titles, columns, units, taken: [] });

  it('are unsure where two columns could be the same sensor', () => {
    const [a, b] = guess([column('E-1 TI hot in A', 50), column('E-1 TI hot in B', 50)]);
    expect([a, b].filter((each) => (each?.confidence ?? 0) >= 0.9)).toEqual([]);
  });

  it('are unsure where the values contradict the names', () => {
    const [hotIn, hotOut] = guess([column('E-1 TI hot in', 39), column('E-1 TI hot out', 50)]);
    expect(hotIn).toMatchObject({ sensor: 'hotIn', confidence: 0.5 });
    expect(hotOut!.reasons).toContain('the hot outlet reads warmer than the hot inlet');
  });

  it('find the unit of measure by the values, and say which other would fit as well', () => {
    const [kelvin] = guess([column('E-1 TI hot in', 323, null)]);
    expect(kelvin).toMatchObject({ sensor: 'hotIn', unit: 'K' });
    const [flow] = guess([column('E-1 FI hot', 36, null)]);
    expect(flow).toMatchObject({ sensor: 'hotFlow', confidence: 0.85 });
    expect(flow!.reasons.at(-1)).toMatch(/no unit of measure is written; .* would fit as well/);
  });

  it.each([
    ['E-1 outlet', 'Cel', 'E-1 outlet [C]'],
    ['E-1 outlet temp', 'Cel', 'E-1 outlet temp (C)'],
    ['E-1 outlet temp', 'Cel', 'E-1 outlet temp C'],
    ['E-1 outlet temp', 'Cel', 'E-1 outlet temp deg C'],
    ['E-1 F1', 't/h', 'E-1 F1 [t/h]'],
    ['E-1 flow', 'm3/h', 'E-1 flow [m3/h]'],
    ['E-1 flow', 'm3/h', 'E-1 flow m3/h'],
    ['E-1 hot flow', 'L/min', 'E-1 hot flow [L/min]'],
    ['E-1 hot F', 't/h', 'E-1 hot F'],
  ])('%s in %s reads the same as %s', (name, unit, whole) => {
    const [plain, written] = [name, whole].map((each) => guess([column(each, 36, unit)])[0]);
    expect(plain).not.toBeNull();
    expect(written).toEqual(plain);
  });

  it.each(['E-1 outlet [C]', 'E-1 outlet temp C', 'E-1 temp in C', 'E-1 F1 [t/h]', 'E-1 Flow m3/h'])(
    '%s says no side, and is not sure',
    (name) => {
      const unit = /\[(.*)\]$/.exec(name)?.[1] ?? null;
      const [found] = guess([column(name, 36, unit)]);
      expect(found!.confidence).toBeLessThanOrEqual(0.75);
      expect(found!.reasons).toContain('nothing but the values says on which side');
    },
  );

  it('read a unit of measure behind the name, without brackets', () => {
    const [flow] = guess([column('E-1 hot flow m3/h', 36, null)]);
    expect(flow).toMatchObject({ sensor: 'hotFlow', unit: 'm3/h' });
    expect(flow!.reasons.join()).not.toContain('no unit of measure is written');
    expect(guess([column('E-1 hot in temp F', 122, null)])[0]).toMatchObject({ sensor: 'hotIn', unit: 'F' });
  });

  it('are unsure where a single letter says the side', () => {
    const [hot, clear] = guess([column('E-1 T in H', 50), column('E-2 T in hot', 50)]);
    expect(hot).toMatchObject({ sensor: 'hotIn', confidence: 0.85 });
    expect(hot!.reasons).toContain('the letter H alone could mean something else');
    expect(clear!.confidence).toBeGreaterThanOrEqual(0.9);
  });

  it('take the unit from the file’s name where the columns name none', () => {
    expect(guess([column('TI hot in', 50)], ['E-2 2026-03'])[0]).toMatchObject({
      tag: 'E-2',
      sensor: 'hotIn',
    });
    expect(guess([column('TI hot in', 50)])[0]).toBeNull();
  });

  it('give no column what another one is by its header', () => {
    const taken = [{ tag: 'E-1', sensor: 'hotIn' as const }];
    const [other] = guessColumns({ titles: [], columns: [column('E-1 TI hot in', 50)], units, taken });
    expect(other?.sensor).not.toBe('hotIn');
  });

  it('take a thousand columns of two hundred units within seconds', () => {
    const many = Array.from({ length: 200 }, (_, i) => unitTargets(plainUnit(`E-${i + 100}`)));
    const columns = many.flatMap(({ tag }) =>
      ['TI_HOT_IN', 'TI_HOT_OUT', 'TI_COLD_IN', 'TI_COLD_OUT', 'LI'].map((part) =>
        column(`${tag}_${part}`, 45),
      ),
    );
    const began = performance.now();
    const guesses = guessColumns({ titles: [], columns, units: many, taken: [] });
    expect(performance.now() - began).toBeLessThan(10_000);
    expect(guesses.filter((each) => each !== null)).toHaveLength(800);
  });
});
