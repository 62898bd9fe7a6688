import { describe, expect, it } from 'vitest';
import { type CheckSettings, DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { type Reason, reasonsOf } from '@/lib/core/checks/reasons';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import {
  COLD_FLOW_IS_VOLUME,
  HOT_FLOW_IS_VOLUME,
  makeReadingColumns,
} from '@/lib/core/series/reading-columns';
import { waterUnit } from '../support/forward-readings';
import data from './data/magnet-cooling-readings.json';

/** The plant's datasheet is not public: a design that encloses its range, so that only the readings themselves are judged. */
const exchanger = waterUnit({
  area: 300,
  design: { hotIn: 30, hotOut: 18, coldIn: 13, coldOut: 23, hotFlow: 250, coldFlow: 300, cleanU: 3000 },
  arrangement: { kind: 'plate', hotPasses: 1, coldPasses: 1, flow: 'counter' },
});

/** Evaluates the file's rows; `checks` beside the default thresholds. */
function evaluation(checks: Partial<CheckSettings> = {}) {
  const rows = data.rows as [string, ...number[]][];
  const readings = makeReadingColumns(rows.length);
  rows.forEach(([time, hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow], i) => {
    readings.time[i] = Date.parse(`${time}Z`);
    readings.hotIn[i] = hotIn!;
    readings.hotOut[i] = hotOut!;
    readings.coldIn[i] = coldIn!;
    readings.coldOut[i] = coldOut!;
    readings.hotFlow[i] = hotFlow! / 1000;
    readings.coldFlow[i] = coldFlow! / 3600;
    readings.flowBasis[i] = HOT_FLOW_IS_VOLUME | COLD_FLOW_IS_VOLUME;
  });
  return evaluateReadings({ exchanger, settings: { ...DEFAULT_CHECK_SETTINGS, ...checks }, readings });
}

describe(`readings of a real plant whose balance cannot close (${data.source})`, () => {
  const result = evaluation();
  const reasons = Array.from(result.reasons, reasonsOf);
  const count = (reason: Reason) => reasons.filter((own) => own.includes(reason)).length;

  it('no U is sold: not one reading is accepted', () => {
    expect(reasons).toHaveLength(68);
    expect(reasons.filter((own) => own.length === 0)).toHaveLength(0);
  });

  it('the reasons named are the true ones: balance not closed, reversed temperatures, not steady', () => {
    expect(count('balance-not-closed')).toBeGreaterThan(reasons.length / 2);
    expect(count('not-steady')).toBeGreaterThan((3 * reasons.length) / 4);
    expect(count('reversed-temperatures')).toBeGreaterThan(4);
    expect(count('terminal-difference-too-small')).toBeGreaterThan(4);
    expect(
      count('missing') + count('out-of-range') + count('outside-fluid-range') + count('frozen-sensor'),
    ).toBe(0);
  });

  it('steadiness is what tells on its way from one load to the next, where the balance happens to close', () => {
    const unjudged = evaluation({ settlingMinutes: 0 });
    const closed = [...unjudged.reasons.keys()].filter((i) => unjudged.reasons[i] === 0);
    expect(closed.length).toBeGreaterThan(0);
    for (const i of closed) expect(reasons[i]).toEqual(['not-steady']);
  });

  it('under load the cold side takes up clearly more than the recorded hot flow gives off', () => {
    const loaded = [...result.balance.keys()].filter((i) => result.hotDuty[i]! > 2e6);
    const mean = loaded.reduce((sum, i) => sum + result.balance[i]!, 0) / loaded.length;
    expect(mean).toBeLessThan(-0.1);
  });
});
