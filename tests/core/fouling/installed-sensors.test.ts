import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { type Exchanger, SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { installedSensors } from '@/lib/core/fouling/installed-sensors';
import { measuredSensors } from '@/lib/core/fouling/measured-sensors';
import { unitModel } from '@/lib/core/fouling/unit-model';
import { COLD_FLOW_IS_VOLUME, makeReadingColumns } from '@/lib/core/series/reading-columns';
import { BOILING_DESIGN, constantFluid, readingsOf, waterUnit } from '../../support/forward-readings';

const plain = waterUnit();
const model = (exchanger: Exchanger) => unitModel(exchanger, DEFAULT_CHECK_SETTINGS);
const readings = (exchanger: Exchanger, without: Sensor[]) => {
  const columns = readingsOf(
    [0, 1].map(() => ({ ...exchanger.design, fouling: 0, duty: 0, overallU: 0, cleanU: 0 })),
  );
  for (const sensor of without) columns[sensor].fill(Number.NaN);
  return columns;
};
const judge = (exchanger: Exchanger, ...without: Sensor[]) =>
  installedSensors(model(exchanger), readings(exchanger, without));

describe('what is installed', () => {
  it('lacks nothing where all six were ever measured, if only at different times', () => {
    expect(judge(plain)).toEqual({ isEvaluable: true, unmeasured: [], missing: [] });
    const columns = readings(plain, []);
    columns.hotFlow[0] = Number.NaN;
    columns.coldIn[1] = Number.NaN;
    expect(installedSensors(model(plain), columns).unmeasured).toEqual([]);
  });

  it('with one value inferred: a sensor there would give the balance check', () => {
    for (const sensor of ['coldFlow', 'hotOut'] as const)
      expect(judge(plain, sensor).unmeasured).toEqual([
        { sensor, standIn: 'balance', gain: 'balance-check' },
      ]);
  });

  it('without either flow: names both, either of which would do', () => {
    expect(judge(plain, 'hotFlow', 'coldFlow')).toEqual({
      isEvaluable: false,
      unmeasured: [
        { sensor: 'hotFlow', standIn: null, gain: 'evaluation' },
        { sensor: 'coldFlow', standIn: null, gain: 'evaluation' },
      ],
      missing: [['hotFlow'], ['coldFlow']],
    });
  });

  it('with nominal flows: either meter would take the place of a typed-in constant', () => {
    const one = judge({ ...plain, nominalFlows: { hot: 20, cold: null } }, 'hotFlow', 'coldFlow');
    expect(one.unmeasured).toEqual([
      { sensor: 'hotFlow', standIn: 'nominal', gain: 'measured-flow' },
      { sensor: 'coldFlow', standIn: 'balance', gain: 'measured-flow' },
    ]);
    const two = judge({ ...plain, nominalFlows: { hot: 20, cold: 25 } }, 'hotFlow', 'coldFlow');
    expect(two.unmeasured.map(({ standIn }) => standIn)).toEqual(['nominal', 'nominal']);
  });

  it('of an evaporator: no sensor for a stated saturation temperature, one for the feed counts its subcooling', () => {
    const evaporator = waterUnit({
      cold: { kind: 'steam', pressure: 101_325 },
      design: BOILING_DESIGN,
    });
    expect(judge(evaporator, 'coldIn', 'coldOut', 'coldFlow').unmeasured).toEqual([
      { sensor: 'coldIn', standIn: 'saturated', gain: 'subcooling' },
      { sensor: 'coldOut', standIn: 'stated-pressure', gain: null },
      { sensor: 'coldFlow', standIn: 'balance', gain: 'balance-check' },
    ]);
  });

  it('of a record without readings is nothing', () => {
    const nothing = installedSensors(model(plain), makeReadingColumns(0));
    expect(nothing.isEvaluable).toBe(false);
    expect(nothing.missing[0]).toHaveLength(5);
  });

  it('counts no volume flow that has no density to make a mass flow of: none stated, or a meter in vapour', () => {
    const columns = readings(
      plain,
      SENSORS.filter((sensor) => sensor !== 'coldFlow'),
    );
    const measured = (exchanger: Exchanger, basis: number) => {
      columns.flowBasis[0] = basis;
      return measuredSensors(model(exchanger), columns, 0);
    };
    const flow = 1 << SENSORS.indexOf('coldFlow');
    expect(measured(plain, COLD_FLOW_IS_VOLUME)).toBe(flow);
    expect(measured(waterUnit({ cold: constantFluid(4180) }), COLD_FLOW_IS_VOLUME)).toBe(0);
    const boiler = (coldMeterAt: 'inlet' | 'outlet') =>
      waterUnit({
        cold: { kind: 'steam', pressure: null },
        coldMeterAt,
        design: BOILING_DESIGN,
      });
    expect(measured(boiler('inlet'), COLD_FLOW_IS_VOLUME)).toBe(flow);
    expect(measured(boiler('outlet'), COLD_FLOW_IS_VOLUME)).toBe(0);
    expect(measured(boiler('outlet'), 0)).toBe(flow);
  });
});
