import { describe, expect, it } from 'vitest';
import { toExchanger } from '@/lib/contract/exchanger-from-unit';
import { type Unit, unitSchema } from '@/lib/contract/fleet-file';
import type { Sensor } from '@/lib/core/exchange/exchanger';
import { installedView } from '@/lib/report/unit/installed-sensors';
import { parseUnitAddress } from '@/lib/report/unit/unit-address';
import { unitView } from '@/lib/report/unit-view';
import { PLATE_UNIT, unitRecords } from '../support/unit-records';

const records = unitRecords();

/** The record of a unit without values of some sensors. */
function without(unit: Unit, sensors: Sensor[]) {
  const readings = { ...records.readings };
  for (const sensor of sensors) readings[sensor] = readings[sensor].map(() => Number.NaN);
  return { ...records, record: { ...records.record, unit, exchanger: toExchanger(unit) }, readings };
}
const lines = (unit: Unit, ...sensors: Sensor[]) =>
  installedView(without(unit, sensors), 'si')?.lines.join('\n') ?? null;
const nominal = (sensors: object) => unitSchema.parse({ ...PLATE_UNIT, sensors });

describe('what is not measured, in words', () => {
  it('is nothing where all six values are read', () => {
    expect(lines(PLATE_UNIT)).toBeNull();
  });

  it('of an inferred flow and an inferred temperature: no check, wider uncertainty, what a sensor would give', () => {
    expect(lines(PLATE_UNIT, 'coldFlow')).toMatch(
      /^Cold flow is not measured: it is inferred.*no balance check.*A flow meter there would give the check/,
    );
    expect(lines(PLATE_UNIT, 'hotOut')).toMatch(/^Hot outlet temperature is not.*A thermometer there/);
  });

  it('of a unit without flow meters: the one sensor that would do', () => {
    const view = installedView(without(PLATE_UNIT, ['hotFlow', 'coldFlow']), 'si')!;
    expect(view.title).toBe('What is missing for an evaluation');
    expect(view.lines).toEqual([
      'No reading of this period can be evaluated: too little is measured. One more sensor would do: hot flow or cold flow.',
    ]);
    expect(lines(PLATE_UNIT, 'hotFlow', 'coldFlow', 'hotIn')).toContain(
      'hot inlet temperature and hot flow, hot inlet temperature and cold flow, or hot flow and cold flow.',
    );
  });

  it('of typed-in flows: the constant with its uncertainty', () => {
    const one = nominal({ hotFlow: { nominal: { value: 20, unit: 'kg/s' } } });
    expect(lines(one, 'hotFlow', 'coldFlow')).toContain(
      'Hot flow is a typed-in constant of 20.00 kg/s ± 10 %',
    );
    const both = nominal({
      hotFlow: { nominal: { value: 20, unit: 'kg/s' } },
      coldFlow: { nominal: { value: 25, unit: 'kg/s' }, uncertainty: 0.05 },
    });
    expect(lines(both, 'hotFlow', 'coldFlow')).toContain('Both flows are typed in');
  });

  it('stands on the unit page, and the chart of flows says which was inferred', () => {
    const view = unitView(without(PLATE_UNIT, ['coldFlow']), parseUnitAddress('HX-1', {}), 'si');
    expect(view.installed?.title).toBe('What is not measured');
    const flows = view.charts.find(({ view: chart }) => chart.name === 'flows')!.view;
    expect(flows.columns.map(({ label }) => label)).toContain('cold flow (inferred)');
  });
});
