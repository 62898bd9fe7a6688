import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { cleanSteps } from '@/lib/report/worked/clean-steps';
import { conductanceSteps } from '@/lib/report/worked/conductance-steps';
import { readingTable } from '@/lib/report/worked/reading-table';
import { streamSteps } from '@/lib/report/worked/stream-steps';
import { workedState } from '@/lib/report/worked/worked-state';
import { writer } from '@/lib/report/worked/worked-step';
import { BOILING_DESIGN, constantFluid, readingsOf, waterUnit } from '../support/forward-readings';
import { unitRecords } from '../support/unit-records';

const exchanger = waterUnit({
  hot: constantFluid(4200),
  cold: { kind: 'steam', pressure: null },
  area: 40,
  design: BOILING_DESIGN,
  nominalFlows: { hot: 20, cold: null },
});
const readings = readingsOf([{ ...BOILING_DESIGN, fouling: 0, duty: 0, overallU: 0 }]);
for (const sensor of ['coldIn', 'coldFlow', 'hotFlow'] as const) readings[sensor][0] = Number.NaN;
const evaluation = evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings });
const base = unitRecords();
const record = { ...base.record, exchanger };
const known = {
  ...base,
  record,
  bases: base.bases.slice(0, 1).map((basis) => ({ ...basis, exchanger })),
  readings,
  evaluation,
};
const state = workedState(known, 0)!;
const write = writer('si');

describe('the working of an evaporator by a typed-in flow', () => {
  const text = JSON.stringify([
    ...streamSteps(state, write),
    ...conductanceSteps(state, record, write),
    ...cleanSteps(state, known, write),
  ]);

  it('puts the saturation temperature on both ends of the cold side, and names its rate without end', () => {
    expect(text).toContain('ΔT_{1} = T_{h,i} − T_{sat}');
    expect(text).toContain('ΔT_{2} = T_{h,o} − T_{sat}');
    expect(text).toContain('evaporates at one temperature');
    expect(text).toContain('cold side without end');
    expect(text).toContain('h_{vapour} − h_{feed}');
    expect(text).toContain('ε_{c} · C_{min} · (T_{h,i} − T_{sat})');
    expect(text).toContain('evaporating film, taken as constant');
  });

  it('says what was typed in, what inferred and what taken as saturated', () => {
    expect(text).toContain('The hot flow is not measured: the constant of the datasheet stands in');
    const read = readingTable(readings, 0, { state, system: 'si' }).map((row) => row.read);
    expect(read.slice(2)).toEqual([
      'not measured: saturated',
      expect.stringContaining('100'),
      'not measured: typed in',
      'not measured: inferred',
    ]);
  });
});
