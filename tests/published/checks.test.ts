import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readPublished } from '../support/published-data';
import { isWithin, worstRow } from './checks/check';
import { differenceFigure, ourFigure } from './checks/figures';
import { checksPage, countOf } from './checks/page';
import { SOURCES } from './checks/sources';
import { allSubjects } from './checks/subjects';
import { relative } from './checks/tolerance';

describe('a check', () => {
  const tolerance = relative(1e-3, 'an example');

  it('fails on a value outside its tolerance, on a missing one and on one that should not be', () => {
    expect(isWithin({ at: '', theirs: 100, ours: 100.09 }, tolerance)).toBe(true);
    expect(isWithin({ at: '', theirs: 100, ours: 100.11 }, tolerance)).toBe(false);
    expect(isWithin({ at: '', theirs: 100, ours: Number.NaN }, tolerance)).toBe(false);
    expect(isWithin({ at: '', theirs: null, ours: 100 }, tolerance)).toBe(false);
    expect(isWithin({ at: '', theirs: null, ours: Number.NaN }, tolerance)).toBe(true);
  });

  it('shows the value that differs most, and nothing of the last bits', () => {
    const rows = [
      { at: 'noise', theirs: 0.1, ours: 0.1 + 1e-17 },
      { at: 'worst', theirs: 100, ours: 100.0512 },
    ];
    expect(worstRow(rows, tolerance).at).toBe('worst');
    expect(ourFigure(rows[1]!, tolerance, false)).toBe('100.05');
    expect(differenceFigure(rows[1]!, tolerance, false)).toBe('5.1e-4');
    expect(differenceFigure(rows[1]!, tolerance, true)).toBe('< 1e-3');
    expect(differenceFigure(rows[0]!, tolerance, false)).toBe('< 1e-12');
  });
});

describe('the page of published checks', () => {
  const subjects = allSubjects();
  const checks = subjects.flatMap((subject) => subject.checks);

  it('is what the program gives today: else run npx tsx tests/published/write-checks.ts', () => {
    const page = readFileSync(new URL('CHECKS.md', import.meta.url), 'utf8');
    expect(page).toBe(checksPage(subjects));
  });

  it('lists no value outside its tolerance', () => {
    const wrong = checks.filter(({ rows, tolerance }) => rows.some((row) => !isWithin(row, tolerance)));
    expect(wrong.map(({ id, quantity }) => `${id}: ${quantity}`)).toEqual([]);
  });

  it('counts at least 150 checks against at least 20 publications', () => {
    const { checks: count, sources } = countOf('publication', subjects);
    expect(count).toBeGreaterThanOrEqual(150);
    expect(sources.length).toBeGreaterThanOrEqual(20);
  });

  it('names every check once and cites every source of the list', () => {
    const names = checks.map(({ id, quantity }) => `${id}: ${quantity}`);
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
    expect(Object.keys(SOURCES).filter((name) => !checks.some(({ source }) => source === name))).toEqual([]);
  });

  it('has every case of the arrangements', () => {
    const { cases } = readPublished<{ cases: { id: string }[] }>('exchanger-arrangements');
    const ids = checks.map(({ id }) => id);
    expect(cases.map(({ id }) => `effectiveness ${id}`).filter((id) => !ids.includes(id))).toEqual([]);
  });
});
