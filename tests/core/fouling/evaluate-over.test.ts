import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { CHECK_REACH_MS } from '@/lib/core/checks/screen';
import { AS_ON_DATASHEET, scaledFactors } from '@/lib/core/clean/clean-reference';
import { type Basis, basisAt, evaluateOver, evaluationReached } from '@/lib/core/fouling/evaluate-over';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { EVALUATION_FLOAT_COLUMNS, sliceEvaluation } from '@/lib/core/fouling/evaluation-columns';
import { breathingStates, EPOCH, HOUR_MS, readingsOf, waterUnit } from '../../support/forward-readings';

const settings = DEFAULT_CHECK_SETTINGS;
const HOURS = 400;
const unit = waterUnit();
const larger = waterUnit({ area: 60 });
const readings = readingsOf(breathingStates(unit, HOURS, () => 5e-5));

const basis = (from: number, change: Partial<Basis> = {}): Basis => ({
  from,
  exchanger: unit,
  settings,
  cleanFactors: AS_ON_DATASHEET,
  ...change,
});

describe('readings of a unit that changed', () => {
  it('are each judged by what held at their instant', () => {
    const change = EPOCH + 150 * HOUR_MS;
    const relearned = EPOCH + 300 * HOUR_MS;
    const bases = [
      basis(0),
      basis(change, { exchanger: larger }),
      basis(relearned, { exchanger: larger, cleanFactors: scaledFactors(1.1) }),
    ];
    const over = evaluateOver(bases, readings);
    const alone = bases.map((one) => evaluateReadings({ ...one, readings }));
    for (const name of EVALUATION_FLOAT_COLUMNS) {
      readings.time.forEach((time, i) => {
        const expected = alone[time < change ? 0 : time < relearned ? 1 : 2]!;
        expect(over[name][i]).toBe(expected[name][i]);
      });
    }
    expect([...over.reasons]).toEqual([...alone[0]!.reasons]);
    expect([...over.time]).toEqual([...readings.time]);
  });

  it('are the same where only some are asked for and the others serve their screening', () => {
    const bases = [basis(0), basis(EPOCH + 150 * HOUR_MS, { exchanger: larger })];
    const whole = evaluateOver(bases, readings);
    for (const rows of [
      { from: 100, to: HOURS },
      { from: 200, to: 300 },
      { from: HOURS, to: HOURS },
    ]) {
      expect(evaluateOver(bases, readings, { rows })).toEqual(sliceEvaluation(whole, rows.from, rows.to));
    }
  });

  it('are judged as by one basis where only one holds over them', () => {
    const bases = [basis(EPOCH - HOUR_MS), basis(EPOCH + HOURS * HOUR_MS, { exchanger: larger })];
    expect(evaluateOver(bases, readings)).toEqual(evaluateReadings({ ...bases[0]!, readings }));
  });
});

describe('what a change of the readings reaches back to', () => {
  const change = EPOCH + 240 * HOUR_MS;

  it('is the day before, where the unit stayed as it was', () => {
    expect(evaluationReached([basis(0)], readings, change)).toBe(change - 24 * HOUR_MS);
    const later = [basis(0), basis(change + HOUR_MS, { exchanger: larger })];
    expect(evaluationReached(later, readings, change)).toBe(change - 24 * HOUR_MS);
  });

  it('is as far as screening ever goes, where the unit changed meanwhile', () => {
    const bases = [basis(0), basis(change - HOUR_MS, { exchanger: larger })];
    expect(evaluationReached(bases, readings, change)).toBe(change - CHECK_REACH_MS);
  });
});

describe('the basis at an instant', () => {
  const bases = [basis(10), basis(20), basis(30)];

  it('is the last that began, and the first for anything earlier', () => {
    expect(basisAt(bases, 20).from).toBe(20);
    expect(basisAt(bases, 29).from).toBe(20);
    expect(basisAt(bases, 5).from).toBe(10);
  });

  it('must exist', () => {
    expect(() => basisAt([], 0)).toThrow(RangeError);
  });
});
