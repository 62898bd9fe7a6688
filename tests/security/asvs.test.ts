import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');

type Requirement = { id: string; level: number; verdict: string; reason: string };

const REQUIREMENTS: Requirement[] = readFileSync(join(import.meta.dirname, 'ASVS.md'), 'utf8')
  .split('\n')
  .filter((line) => /^\| \d/.test(line))
  .map((line) => line.split('|').map((cell) => cell.trim()))
  .map(([, id, level, , verdict, reason]) => ({
    id: id!,
    level: Number(level),
    verdict: verdict!,
    reason: reason!,
  }));

/** Levels of the requirements of each section, in their order; those of level 3 are not looked at. */
const LEVELS: Record<string, string> = {
  '1.1': '22',
  '1.2': '1111122223',
  '1.3': '112222222223',
  '1.4': '222',
  '1.5': '123',
  '2.1': '122',
  '2.2': '112',
  '2.3': '12223',
  '2.4': '23',
  '3.2': '11',
  '3.3': '12223',
  '3.4': '1122223',
  '3.5': '1112233',
  '3.7': '22333',
  '4.1': '12233',
  '4.2': '23333',
  '4.3': '22',
  '4.4': '1222',
  '5.1': '2',
  '5.2': '112333',
  '5.3': '113',
  '5.4': '222',
  '6.1': '122',
  '6.2': '111111112222',
  '6.3': '11223333',
  '6.4': '112233',
  '6.5': '22222333',
  '6.6': '2223',
  '6.8': '2222',
  '7.1': '222',
  '7.2': '1111',
  '7.3': '22',
  '7.4': '11222',
  '7.5': '223',
  '7.6': '22',
  '8.1': '1233',
  '8.2': '1123',
  '8.3': '133',
  '8.4': '23',
  '9.1': '111',
  '9.2': '1222',
  '10.1': '22',
  '10.2': '223',
  '10.3': '22223',
  '10.4': '11111222222',
  '10.5': '22222',
  '10.6': '22',
  '10.7': '222',
  '11.1': '2233',
  '11.2': '22233',
  '11.3': '11233',
  '11.4': '122',
  '11.5': '23',
  '11.6': '23',
  '12.1': '12233',
  '12.2': '11',
  '12.3': '22223',
  '13.1': '2333',
  '13.2': '222223',
  '13.3': '2233',
  '13.4': '1222233',
  '14.1': '22',
  '14.2': '12223333',
  '14.3': '122',
  '15.1': '12233',
  '15.2': '12233',
  '15.3': '1222222',
  '16.1': '2',
  '16.2': '22222',
  '16.3': '2222',
  '16.4': '222',
  '16.5': '2223',
};

/** Chapters in which nothing of level 1 may be left: interfaces, files, signing in, sessions, rights. */
const CLOSED = ['4', '5', '6', '7', '8'];

describe('the checklist', () => {
  it('has every requirement of levels 1 and 2, each once and with its level', () => {
    const expected = Object.entries(LEVELS).flatMap(([section, levels]) =>
      [...levels].map((level, index) => `${section}.${index + 1} ${level}`),
    );
    const looked = REQUIREMENTS.map(({ id, level }) => `${id} ${level}`);
    expect(looked).toEqual(expected.filter((entry) => !entry.endsWith(' 3')));
  });

  it('says of each that it is met, not applicable or not met, and by what or why', () => {
    for (const { id, verdict, reason } of REQUIREMENTS) {
      expect(['met', 'not applicable', 'not met'], id).toContain(verdict);
      expect(reason.length, id).toBeGreaterThan(3);
      if (verdict === 'met') expect(reason, id).toMatch(/`[\w./[\]-]+`/);
    }
  });

  it.each(REQUIREMENTS.filter(({ verdict }) => verdict === 'met'))(
    '$id names what there is',
    ({ reason }) => {
      const named = [...reason.matchAll(/`([\w./[\]-]+)`(?: “([^”]+)”)?/g)];
      for (const [, path, text] of named) {
        expect(existsSync(join(ROOT, path!)), path).toBe(true);
        if (text === undefined || statSync(join(ROOT, path!)).isDirectory()) continue;
        expect(readFileSync(join(ROOT, path!), 'utf8'), path).toContain(text);
      }
    },
  );

  it('leaves nothing of level 1 open where people, programs and files come in', () => {
    const open = REQUIREMENTS.filter(
      ({ id, level, verdict }) => level === 1 && verdict === 'not met' && CLOSED.includes(id.split('.')[0]!),
    );
    expect(open.map(({ id }) => id)).toEqual([]);
  });
});
