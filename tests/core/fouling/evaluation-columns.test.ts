import { expect, it } from 'vitest';
import {
  copyEvaluation,
  EVALUATION_BIT_COLUMNS,
  EVALUATION_FLOAT_COLUMNS,
  makeEvaluationColumns,
  sliceEvaluation,
} from '@/lib/core/fouling/evaluation-columns';

const COLUMNS = ['time', 'reasons', ...EVALUATION_FLOAT_COLUMNS, ...EVALUATION_BIT_COLUMNS] as const;

function numbered(length: number, start: number) {
  const columns = makeEvaluationColumns(length);
  for (const [place, name] of COLUMNS.entries()) {
    columns[name].forEach((_, row) => {
      columns[name][row] = start + place + row;
    });
  }
  return columns;
}

it('rows are looked at without copying: every column is a view of the same memory', () => {
  const whole = numbered(6, 0);
  const part = sliceEvaluation(whole, 2, 5);
  for (const name of COLUMNS) {
    expect(part[name].length).toBe(3);
    expect(part[name][0]).toBe(whole[name][2]);
    expect(part[name].buffer).toBe(whole[name].buffer);
  }
});

it('rows are copied in every column, and nothing beside them is touched', () => {
  const into = numbered(6, 0);
  const source = numbered(4, 100);
  copyEvaluation(into, source, { from: 1, to: 3, at: 4 });
  const untouched = numbered(6, 0);
  for (const name of COLUMNS) {
    expect([...into[name].subarray(0, 4)]).toEqual([...untouched[name].subarray(0, 4)]);
    expect([...into[name].subarray(4)]).toEqual([...source[name].subarray(1, 3)]);
  }
  expect(() => copyEvaluation(into, source, { from: 0, to: 4, at: 4 })).toThrow(RangeError);
});
