import { describe, expect, it } from 'vitest';
import type { MappedColumn, MappingTask } from '@/lib/contract/column-guess';
import { choiceProblems, faultsElsewhere } from '@/lib/report/import/choice-problems';
import { columnWords, countWords, guessWords, savedOffer } from '@/lib/report/import/guess-words';
import { intakeView } from '@/lib/report/import/intake-view';
import {
  choicesOf,
  countChoices,
  isAsGuessed,
  mappingFrom,
  shownPlaces,
  withGuess,
} from '@/lib/report/import/mapping-choices';
import { mappingView } from '@/lib/report/import/mapping-view';
import { unitCheck } from '@/lib/report/import/unit-check';

const guess = (sensor: 'hotIn' | 'hotOut' | 'coldFlow', confidence: number, unit = 'Cel') => ({
  tag: 'E-1',
  sensor,
  unit,
  confidence,
  reasons: ['the name holds E-1'],
});

function column(name: string, changes: Partial<MappedColumn> = {}): MappedColumn {
  const numbers = {
    low: 48,
    middle: 50,
    high: 52,
    filled: 10,
    numbers: 10,
    first: ['50', '51'],
    plot: [50, 51],
  };
  return { name, description: '', writtenUnit: null, guess: null, ...numbers, ...changes };
}

const COLUMNS = [
  column('TI-1 [Cel]', { guess: guess('hotIn', 0.97), writtenUnit: 'Cel' }),
  column('TI-2', { guess: guess('hotOut', 0.6), low: 52, middle: 55, high: 56 }),
  column('FI-1', { guess: guess('coldFlow', 0.85, 't/h'), low: 30, middle: 36, high: 38 }),
  column('spare'),
];

const TASK: MappingTask = {
  columns: COLUMNS,
  more: 0,
  timeColumn: null,
  saved: [],
  conversions: [
    { unit: 'Cel', kind: 'temperature', factor: 1, offset: 0 },
    { unit: 't/h', kind: 'massFlow', factor: 1 / 3.6, offset: 0 },
  ],
  designs: [
    {
      tag: 'E-1',
      temperatures: { hotIn: 50, hotOut: 40, coldIn: 30, coldOut: 40 },
      flows: { hotFlow: { mass: 10, volume: 0.01 }, coldFlow: { mass: 10, volume: 0.01 } },
    },
  ],
};

describe('the choices of a mapping', () => {
  it('take no guess before a person says yes, and skip what is left open', () => {
    const choices = choicesOf(COLUMNS, null);
    expect(choices[0]).toEqual({ name: 'TI-1 [Cel]', tag: '', sensor: '', unit: 'Cel', isSkipped: false });
    expect(countChoices(choices, TASK)).toEqual({
      all: 4,
      taken: 0,
      skipped: 0,
      open: 4,
      doubtful: 2,
      sure: 1,
    });
    const none = mappingFrom(choices, { before: null, timeColumn: null });
    expect(Object.values(none.sensors)).toEqual([null, null, null, null]);
    const taken = choices.map((choice, i) => (i === 0 ? withGuess(choice, COLUMNS[0]!.guess!) : choice));
    expect(isAsGuessed(taken[0]!, COLUMNS[0]!.guess!)).toBe(true);
    const before = { timeZone: 'Etc/UTC', sensors: { gone: null } };
    expect(mappingFrom(taken, { before, timeColumn: 'Stamp' })).toEqual({
      timeZone: 'Etc/UTC',
      timeColumn: 'Stamp',
      sensors: {
        gone: null,
        'TI-1 [Cel]': { tag: 'E-1', sensor: 'hotIn', unit: 'Cel' },
        'TI-2': null,
        'FI-1': null,
        spare: null,
      },
    });
  });

  it('come back from a mapping, its names with or without the unit in brackets', () => {
    const sensors = { 'TI-1': { tag: 'E-1', sensor: 'hotIn' as const, unit: 'Cel' }, spare: null };
    const choices = choicesOf(COLUMNS, { sensors });
    expect(choices[0]).toMatchObject({ tag: 'E-1', sensor: 'hotIn', isSkipped: false });
    expect(choices[3]).toMatchObject({ tag: '', isSkipped: true });
    expect(countChoices(choices, TASK)).toMatchObject({ taken: 1, skipped: 1, open: 2, sure: 0 });
    expect(shownPlaces(choices, COLUMNS, 'all')).toEqual([0, 1, 2, 3]);
    expect(shownPlaces(choices, COLUMNS, 'open')).toEqual([1, 2]);
    expect(shownPlaces(choicesOf(COLUMNS, null), COLUMNS, 'doubtful')).toEqual([1, 2]);
  });

  it('show at each column what is wrong with it', () => {
    const choices = choicesOf(COLUMNS, null).map((choice, i) => ({
      ...choice,
      ...[
        { tag: 'E-1', sensor: 'hotIn' as const },
        { tag: 'E-1', sensor: 'hotIn' as const, unit: 'Cel' },
        { tag: 'E-9' },
        {},
      ][i],
    }));
    const faults = [
      { field: 'FI-1', message: '"x" is no unit of mass or volume flow' },
      { field: 'spare', message: 'is not in the mapping; add it' },
      { field: 'time', message: 'there is no column of times' },
    ];
    const problems = choiceProblems(choices, { tags: new Set(['E-1']), faults });
    expect(problems.get('TI-2')).toEqual(['"TI-1 [Cel]" is this sensor of E-1 already; keep one of them']);
    expect(problems.get('FI-1')).toEqual([
      'needs the quantity and the unit of measure; until then it is skipped',
      'there is no unit "E-9"',
      '"x" is no unit of mass or volume flow',
    ]);
    expect(problems.has('spare')).toBe(false);
    expect(faultsElsewhere(faults, choices)).toEqual([faults[2]]);
  });
});

describe('a unit against its design', () => {
  const choices = choicesOf(COLUMNS, null).map((choice, i) => {
    const { guess: made } = COLUMNS[i]!;
    return made === null ? choice : withGuess(choice, made);
  });

  it('shows what each column reads beside the design, in the reader’s units, and what cannot be', () => {
    const checks = unitCheck('E-1', { choices, task: TASK, system: 'si' });
    const of = (sensor: string) => checks.find((check) => check.sensor === sensor)!;
    expect(of('hotIn')).toMatchObject({
      column: 'TI-1 [Cel]',
      reads: '48.0 to 52.0',
      design: '50.0',
      unit: '°C',
    });
    expect(of('hotIn').doubt).toBe('reads less than the hot outlet');
    expect(of('coldFlow')).toMatchObject({
      reads: '8.33 to 10.6',
      design: '10.0',
      unit: 'kg/s',
      doubt: null,
    });
    expect(of('coldIn')).toMatchObject({ column: null, reads: '', design: '30.0' });
    const us = unitCheck('E-1', { choices, task: TASK, system: 'us' });
    expect(us[0]).toMatchObject({ design: '122', unit: '°F' });
  });

  it('says that values are far from the design, whatever the unit of measure', () => {
    const far = choices.map((choice) => (choice.name === 'FI-1' ? { ...choice, unit: 'kg/s' } : choice));
    const conversions = [
      ...TASK.conversions,
      { unit: 'kg/s', kind: 'massFlow' as const, factor: 1, offset: 0 },
    ];
    const check = unitCheck('E-1', { choices: far, task: { ...TASK, conversions }, system: 'si' });
    expect(check.find(({ sensor }) => sensor === 'coldFlow')!.doubt).toContain('unit of measure');
    const unknown = choices.map((choice) =>
      choice.name === 'FI-1' ? { ...choice, unit: 'furlong' } : choice,
    );
    const other = unitCheck('E-1', { choices: unknown, task: TASK, system: 'si' });
    expect(other.find(({ sensor }) => sensor === 'coldFlow')).toMatchObject({ reads: '', doubt: null });
  });
});

describe('words about guesses', () => {
  it('say what, how sure and why, and never 100 %', () => {
    expect(guessWords(guess('hotIn', 0.9999))).toEqual({
      what: 'E-1 hot inlet temperature, °C',
      how: { level: 'sure', words: 'sure, 99 %' },
      why: 'the name holds E-1',
    });
    expect(guessWords(guess('hotIn', 0.6)).how.level).toBe('likely');
    expect(guessWords(guess('hotIn', 0.2)).how.level).toBe('unsure');
    expect(columnWords(COLUMNS[0]!)).toEqual({ first: '50 · 51', range: '48 to 52 Cel' });
    expect(columnWords(column('x', { low: null, high: null })).range).toBe('no numbers');
    expect(countWords({ all: 1, taken: 1, skipped: 0, open: 0, doubtful: 0, sure: 0 }, 0)).toBe(
      '1 column: 1 chosen, 0 skipped, 0 open.',
    );
  });

  it('offer a saved mapping that fits', () => {
    expect(savedOffer(TASK)).toBeNull();
    const offered = (known: number) =>
      savedOffer({ ...TASK, saved: [{ name: 'U1', revision: 0, known, missing: 0 }] })!;
    expect(offered(4).title).toBe('This header fits the saved mapping “U1”: all 4 columns');
    expect(offered(3).title).toBe('The saved mapping “U1” explains 3 of 4 columns');
  });
});

describe('saved mappings and watched folders', () => {
  const saved = {
    name: 'Unit 1/2',
    revision: 3,
    changedAt: '2026-07-01T11:00:00.000Z',
    changedBy: 'A. Person',
    mapping: { sensors: { a: { tag: 'E-1', sensor: 'hotIn' as const, unit: 'Cel' }, b: null } },
  };
  const file = (name: string, takenAt: string, refusal: string | null = null) => ({
    folder: '/plant',
    name,
    takenAt: Date.parse(takenAt),
    batchId: refusal === null ? 7 : null,
    refusal,
  });

  it('are listed with what they explain, and the last state of each file, the refused ones first', () => {
    const files = [
      file('b.csv', '2026-07-01T12:00:00Z'),
      file('a.csv', '2026-07-01T11:00:00Z', 'Line 1: no'),
      file('b.csv', '2026-07-01T10:00:00Z', 'Line 2: older'),
    ];
    const view = intakeView({ mappings: [saved], files, now: 0 }, { sites: [{ timeZone: 'Europe/Lisbon' }] });
    expect(view.mappings[0]).toMatchObject({
      href: '/import/mappings/Unit%201%2F2',
      columns: '1 column, 1 skipped',
      units: 'E-1',
    });
    expect(view.mappings[0]!.changed).toMatch(/by A\. Person$/);
    expect(view.folders).toHaveLength(1);
    expect(view.folders[0]!.lastTaken).toMatch(/^last taken .*Europe\/Lisbon\): b\.csv$/);
    expect(view.folders[0]!.files.map(({ name, outcome }) => [name, outcome])).toEqual([
      ['a.csv', 'Line 1: no'],
      ['b.csv', 'import 7'],
    ]);
  });

  it('are edited by their names alone', () => {
    const { task, changed } = mappingView({ saved, tags: ['E-1'], timeZones: ['Etc/UTC'] });
    expect(task.columns.map(({ name, guess: made }) => [name, made])).toEqual([
      ['a', null],
      ['b', null],
    ]);
    expect(changed).toContain('revision 3');
  });
});
