import { describe, expect, test } from 'vitest';
import { parseMaths } from '@/app/ui/maths/parse-maths';
import type { CleanReferenceRecord } from '@/lib/contract/clean-references';
import { unitSchema } from '@/lib/contract/fleet-file';
import { HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import type { UnitRecords } from '@/lib/report/records';
import { parseUnitAddress } from '@/lib/report/unit/unit-address';
import { pickReading } from '@/lib/report/worked/pick-reading';
import { workedView } from '@/lib/report/worked/worked-view';
import { DAY_MS, EPOCH } from '../support/forward-readings';
import { NOW, PLATE_UNIT, unitRecords } from '../support/unit-records';

const RECORDS = unitRecords();
const LAST = RECORDS.readings.time.length - 1;
const at = (row: number) => new Date(RECORDS.readings.time[row]!).toISOString();
const viewOf = (records: UnitRecords, reading?: string, system: 'si' | 'us' = 'si') =>
  workedView(
    records,
    parseUnitAddress('HX-1', { how: '1', ...(reading === undefined ? {} : { reading }) }),
    system,
  );
const resultOf = (view: ReturnType<typeof viewOf>, id: string, symbols: string) =>
  view.steps.find((step) => step.id === id)?.lines.find((line) => line.symbols.startsWith(symbols))?.result;

describe('the worked reading', () => {
  test('is the newest accepted one unless the address names another', () => {
    expect(pickReading(RECORDS.evaluation, null)!.row).toBe(LAST);
    expect(pickReading(RECORDS.evaluation, RECORDS.readings.time[100]!)).toMatchObject({
      row: 100,
      previous: 99,
      next: 101,
    });
    expect(pickReading(RECORDS.evaluation, RECORDS.readings.time[100]! + 600_000)!.row).toBe(100);
    expect(viewOf(RECORDS, at(100)).time).toBe('10 Jan 2025, 04:00');
  });

  test('links to the accepted readings before and after it', () => {
    expect(viewOf(RECORDS, at(100)).previous).toBe('/units/HX-1?reading=2025-01-10T03:00Z&how=1#how');
    expect(viewOf(RECORDS).next).toBeNull();
  });

  test('shows a left-out reading when asked for, with its reasons', () => {
    const records = unitRecords((readings) => {
      readings.hotIn[500] = Number.NaN;
      readings.hotOut[500] = Number.NaN;
    });
    const view = viewOf(records, at(500));
    expect(view.reasons).toEqual(['values missing']);
    expect(view.steps.map(({ id }) => id)).toEqual(['clean-by']);
    expect(view.table.find(({ label }) => label === 'hot inlet temperature')!.read).toBe('–');
  });
});

describe('the steps', () => {
  test('give the same figures as the evaluation, each with its formula', () => {
    const view = viewOf(RECORDS);
    const { evaluation } = RECORDS;
    const number = (text: string | undefined) =>
      Number(
        text!
          .replace(/[^\d.−-].*$/, '')
          .replace('−', '-')
          .replace(',', ''),
      );
    expect(number(resultOf(view, 'lmtd', 'LMTD'))).toBeCloseTo(evaluation.lmtd[LAST]!, 2);
    expect(number(resultOf(view, 'capacity-rates', 'ε'))).toBeCloseTo(evaluation.effectiveness[LAST]!, 4);
    expect(number(resultOf(view, 'ntu', 'NTU'))).toBeCloseTo(evaluation.ntu[LAST]!, 4);
    expect(number(resultOf(view, 'rf', 'R_{f}'))).toBeCloseTo(evaluation.foulingResistance[LAST]! * 1e3, 2);
    expect(resultOf(view, 'ntu', 'UA = NTU')).toBe(resultOf(view, 'ntu', 'UA = frac{Q}'));
  });

  test('come in the order of the working, with an anchor for each main figure', () => {
    expect(viewOf(RECORDS).steps.map(({ id }) => id)).toEqual([
      'duty',
      'lmtd',
      'capacity-rates',
      'ntu',
      'u',
      'clean-u',
      'rf',
      'lost-duty',
      'uncertainty',
      'clean-by',
    ]);
  });

  test('follow the reader’s units', () => {
    const us = JSON.stringify(viewOf(RECORDS, undefined, 'us').steps);
    expect(us).toContain('Btu/(h·ft²·°F)');
    expect(us).not.toMatch(/kg\/s|°C| kW|m²·K/);
  });

  test('take the area of a plate unit from its inner plates', () => {
    const line = viewOf(RECORDS).steps.find(({ id }) => id === 'u')!.lines[0]!;
    expect(line).toEqual({
      symbols: 'A = (N − 2) · a',
      figures: '(102 − 2) · 0.50000 m²',
      result: '50.000 m²',
    });
  });

  test('begin with the density where a meter reads volume', () => {
    const records = unitRecords((readings) => {
      readings.flowBasis.fill(HOT_FLOW_IS_VOLUME);
      readings.hotFlow.forEach((flow, i) => {
        readings.hotFlow[i] = flow / 971.8;
      });
    });
    const view = viewOf(records);
    expect(view.steps[0]!.id).toBe('mass-flow');
    expect(view.steps[0]!.lines[0]!.figures).toMatch(/^97\d\.\d+ kg\/m³ · [\d.]+ m³\/h$/);
  });

  test('say which value was inferred and that no balance can be checked', () => {
    const records = unitRecords((readings) => readings.coldFlow.fill(Number.NaN));
    const view = viewOf(records);
    const duty = view.steps.find(({ id }) => id === 'duty')!;
    expect(duty.notes[0]).toContain('cold flow is not measured');
    expect(duty.lines.some(({ symbols }) => symbols.startsWith('balance'))).toBe(false);
    expect(view.table.find(({ label }) => label === 'cold flow')!.read).toBe('not measured: inferred');
  });

  test('name the datasheet and the clean reference a reading was judged by, with its factors', () => {
    const [basis] = RECORDS.bases;
    const reference: CleanReferenceRecord = {
      number: 4,
      from: null,
      method: 'two-films',
      unitVersion: 1,
      factors: { hot: 1.25, wall: 1, cold: 0.9 },
      uncertainty: { hot: 0.02, cold: 0.03 },
      evidence: { from: EPOCH, to: NOW, readings: 120 },
      acceptedBy: 'shift engineer',
      reason: 'acid wash in May',
      acceptedAt: NOW,
    };
    const later = { ...PLATE_UNIT, validFrom: '2025-03-01T08:00:00Z' };
    const records = {
      ...RECORDS,
      versions: [...RECORDS.versions, { number: 2, unit: later, savedAt: NOW }],
      references: [reference],
      bases: [
        basis!,
        {
          ...basis!,
          from: EPOCH + 50 * DAY_MS,
          unitVersion: 2,
          reference: 4,
          cleanFactors: reference.factors,
        },
      ],
    };
    const now = viewOf(records).steps.find(({ id }) => id === 'clean-u')!;
    expect(now.notes.join(' ')).toContain('datasheet version 2, since 1 Mar 2025, 08:00.');
    expect(now.notes.join(' ')).toMatch(
      /clean reference 4, accepted by shift engineer on \d+ May 2025: acid wash in May\./,
    );
    expect(now.lines.at(-2)!.symbols).toContain('f_{h} · R_{h}');
    expect(now.lines.at(-2)!.figures).toMatch(/^1(\.0+)? · .* \+ 1\.25(00)? · .* \+ 0\.9(0+)? · /);
    const then = viewOf(records, new Date(EPOCH + 10 * DAY_MS).toISOString());
    expect(then.steps.find(({ id }) => id === 'clean-u')!.notes.join(' ')).toContain('datasheet version 1.');
  });

  test('hold no missing number anywhere, for a condensing unit neither', () => {
    const steam = unitSchema.parse({
      ...PLATE_UNIT,
      arrangement: { kind: 'shell-and-tube', shellPasses: 1, tubePasses: 2 },
      construction: 'shell-and-tube',
      plates: undefined,
      nozzles: undefined,
      area: { value: 10, unit: 'm2' },
      hot: { fluid: 'steam', pressure: { value: 200, unit: 'kPa' } },
      design: {
        ...PLATE_UNIT.design,
        hotIn: { value: 120.2, unit: 'Cel' },
        hotOut: { value: 120.2, unit: 'Cel' },
        hotFlow: { value: 1.2, unit: 'kg/s' },
        cleanU: { value: 2800, unit: 'W/(m2.K)' },
      },
    });
    for (const records of [RECORDS, unitRecords((readings) => readings.hotFlow.fill(Number.NaN), steam)]) {
      const view = viewOf(records);
      expect(view.steps.length).toBeGreaterThanOrEqual(10);
      for (const { symbols, figures, result } of view.steps.flatMap(({ lines }) => lines)) {
        expect(`${symbols} ${figures} ${result}`).not.toMatch(/NaN|Infinity|undefined|–(?! )/);
      }
    }
  });
});

test('the notation of formulas becomes scripts and fractions that bind to the word before them', () => {
  expect(parseMaths('R_{f} = frac{1}{U}')).toEqual([
    { kind: 'sub', base: { kind: 'text', text: 'R' }, script: [{ kind: 'text', text: 'f' }] },
    { kind: 'text', text: ' ' },
    { kind: 'text', text: '=' },
    { kind: 'text', text: ' ' },
    { kind: 'fraction', above: [{ kind: 'text', text: '1' }], below: [{ kind: 'text', text: 'U' }] },
  ]);
});
