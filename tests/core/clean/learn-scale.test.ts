import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { REASON_BIT } from '@/lib/core/checks/reasons';
import { learnScale, learnScaleWithin } from '@/lib/core/clean/learn-scale';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { makeEvaluationColumns } from '@/lib/core/fouling/evaluation-columns';
import { makeRandom } from '@/lib/core/stats/random';
import {
  breathingStates,
  DAY_MS,
  EPOCH,
  HOUR_MS,
  readingsOf,
  waterUnit,
} from '../../support/forward-readings';

/** True clean resistance 10 % above the datasheet's, in the form of a fouling that is there from the start. */
const exchanger = waterUnit();
const HOURS = 30 * 24;
const CLEANED_AT = 15 * 24;
const extra = 0.1 / 2800;
const states = breathingStates(
  exchanger,
  HOURS,
  (hour) => extra + 1e-7 * (hour < CLEANED_AT ? hour + 500 : hour - CLEANED_AT),
);
const evaluation = () =>
  evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings: readingsOf(states) });
const cleaning = EPOCH + CLEANED_AT * HOUR_MS;

describe('a learned clean reference', () => {
  it('is the median of Uc/U over five days after the first recorded cleaning', () => {
    const learned = learnScale(evaluation(), [cleaning])!;
    expect(learned.readings).toBe(5 * 24);
    expect(learned.from).toBe(cleaning);
    expect(learned.to).toBe(cleaning + 5 * DAY_MS - HOUR_MS);
    // 10 % of the resistance, and the fouling of two and a half days.
    expect(Math.abs(learned.scale - (1.1 + 60e-7 * 2800))).toBeLessThan(0.01);
  });

  it('takes the first days of the record where no cleaning is recorded', () => {
    expect(learnScale(evaluation())!.from).toBe(EPOCH);
  });

  it('passes over a cleaning after which the unit stood for long, and takes the next', () => {
    const result = evaluation();
    result.reasons.fill(REASON_BIT['unit-off'], 2 * 24, CLEANED_AT);
    const learned = learnScale(result, [EPOCH + 3 * DAY_MS, cleaning]);
    expect(learned!.from).toBe(cleaning);
  });

  it('waits until there are 24 accepted readings', () => {
    const result = evaluation();
    result.reasons.fill(REASON_BIT.spike, CLEANED_AT + 23);
    expect(learnScale(result, [cleaning])).toBeNull();
    result.reasons[CLEANED_AT + 23] = 0;
    expect(learnScale(result, [cleaning])!.readings).toBe(24);
    expect(learnScale(result, [EPOCH + 100 * DAY_MS])).toBeNull();
  });
});

describe('one factor from a chosen period', () => {
  it('counts the readings from its beginning up to its end', () => {
    const learned = learnScaleWithin(evaluation(), cleaning, cleaning + 2 * DAY_MS)!;
    expect(learned).toMatchObject({
      from: cleaning,
      to: cleaning + 2 * DAY_MS - HOUR_MS,
      readings: 48,
    });
    expect(learnScaleWithin(evaluation(), cleaning, cleaning + 23 * HOUR_MS)).toBeNull();
  });

  it('has a standard error that holds the truth in at least 90 % of 200 seeded records at two errors', () => {
    let held = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const random = makeRandom(seed);
      const made = makeEvaluationColumns(120);
      for (let i = 0; i < 120; i++) {
        made.time[i] = EPOCH + i * HOUR_MS;
        made.cleanliness[i] = 1 / (1.05 + 0.03 * random.normal());
      }
      const { scale, uncertainty } = learnScaleWithin(made, EPOCH, EPOCH + 5 * DAY_MS)!;
      if (Math.abs(scale - 1.05) <= 2 * uncertainty) held++;
    }
    expect(held).toBeGreaterThanOrEqual(180);
  });
});
