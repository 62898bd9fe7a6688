import { describe, expect, it } from 'vitest';
import { AppError } from '@/lib/contract/app-error';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import type { Unit } from '@/lib/contract/fleet-file';
import { checkFleet } from '@/lib/work/register-fleet';
import { plainFleet, plainUnit } from '../support/units';

const celsius = (value: number) => ({ value, unit: 'Cel' });

function faultsOf(document: unknown): string[] {
  try {
    checkFleet(document);
    return [];
  } catch (error) {
    expect(error).toBeInstanceOf(AppError);
    return (error as AppError).faults.map(({ field, message }) => `${field}: ${message}`);
  }
}

function fleetWith(changes: object) {
  const fleet = plainFleet(['E-1']);
  return { ...fleet, units: [{ ...fleet.units[0], ...changes }] };
}

describe('a fleet file', () => {
  it('is accepted with the required fields only', () => {
    expect(faultsOf(plainFleet(['E-1', 'E-2']))).toEqual([]);
  });

  it('is refused with every faulty field named', () => {
    const faults = faultsOf(
      fleetWith({ area: { value: -1, unit: 'm2' }, limits: [], hot: { fluid: 'lava' }, tag: '' }),
    );
    for (const field of ['units[0].area.value', 'units[0].limits', 'units[0].hot.fluid', 'units[0].tag']) {
      expect(faults.some((fault) => fault.startsWith(field))).toBe(true);
    }
  });

  it('refuses a unit of measure of another kind and says what would do', () => {
    const faults = faultsOf(fleetWith({ area: { value: 20, unit: 'kg/s' } }));
    expect(faults).toEqual(['units[0].area.unit: "kg/s" is no unit of area; use for example m2 or [ft_i]2']);
  });

  it('refuses a tag that stands twice, a zone that is none and a currency that is none', () => {
    const twice = { ...plainFleet(['E-1']), units: [plainUnit('E-1'), plainUnit('E-1')] };
    expect(faultsOf(twice)).toEqual(['units[1].tag: tag "E-1" stands already at units[0]']);
    const site = { name: 'Works', timeZone: 'Mars/Olympus', currency: 'euro' };
    expect(faultsOf({ ...plainFleet(['E-1']), site }).map((fault) => fault.split(':')[0])).toEqual([
      'site.timeZone',
      'site.currency',
    ]);
  });

  it('refuses unknown fields at every level, and keeps no remark', () => {
    const fleet = plainFleet(['E-1']);
    const site = { ...fleet.site, timezone: 'Europe/Lisbon' };
    expect(faultsOf({ ...fleet, site, unit: [] })).toEqual([
      'site.timezone: is not known here; did you mean "timeZone"?',
      'unit: is not known here; did you mean "units"?',
    ]);
    const supplies = [
      { name: 'gas', dated: [{ from: '2026-01-01', price: { amount: 1, per: 'MJ' }, Carbom: 1 }] },
    ];
    expect(faultsOf({ ...fleet, site: { ...fleet.site, supplies } })).toEqual([
      'site.supplies[0].dated[0].Carbom: is not known here; did you mean "carbon"?',
    ]);
    expect(faultsOf(fleetWith({ limts: [] }))).toEqual([
      'units[0].limts: is not known here; did you mean "limits"?',
    ]);
    expect(checkFleet({ $schema: 'fleet.json', comment: 'as built', ...fleet })).toEqual(fleet);
  });

  it('refuses temperature thresholds the wrong way round, against the defaults too', () => {
    const checks = (minimumTemperature?: object, maximumTemperature?: object) =>
      faultsOf(fleetWith({ checks: { minimumTemperature, maximumTemperature } }));
    expect(checks(celsius(0), celsius(90))).toEqual([]);
    expect(checks(celsius(90), celsius(90))).toEqual([
      'units[0] (E-1).checks.minimumTemperature: must be below maximumTemperature: no reading would be in between',
    ]);
    expect(checks(celsius(500))).toEqual([
      expect.stringMatching(/checks.minimumTemperature: must be below the highest temperature, 500 °C/),
    ]);
    expect(checks(undefined, celsius(-60))).toEqual([
      expect.stringMatching(/checks.maximumTemperature: must be above the lowest temperature, -60 °C/),
    ]);
  });

  it('refuses duties that differ by more than a fifth of their mean, unless the clean U is stated', () => {
    const { design } = plainUnit('E-1');
    const withFlow = (value: number) => ({ ...design, coldFlow: { value, unit: 'kg/s' } });
    expect(faultsOf(fleetWith({ design: withFlow(12) }))).toEqual([]);
    expect(faultsOf(fleetWith({ design: withFlow(12.5) }))).toEqual([
      'units[0] (E-1).design: the hot stream gives up 418 kW and the cold one takes up 522 kW, 22 % apart: check temperatures, flows and fluids, or state cleanU',
    ]);
    const cleanU = { value: 1500, unit: 'W/(m2.K)' };
    expect(faultsOf(fleetWith({ design: { ...withFlow(12.5), cleanU } }))).toEqual([]);
  });

  it('refuses temperatures against physics, naming unit and field', () => {
    const design = { ...plainUnit('E-1').design, hotOut: celsius(60) };
    expect(faultsOf(fleetWith({ design }))).toContain(
      'units[0] (E-1).design.hotOut: must be below hotIn: the hot stream is cooled',
    );
  });

  it('refuses a fluid outside its range, naming value and range', () => {
    const design = { ...plainUnit('E-1').design, hotIn: celsius(180) };
    const [fault] = faultsOf(fleetWith({ design }));
    expect(fault).toMatch(/design\.hotIn: water.*180.*151\.8/);
  });

  it('refuses a design point its arrangement cannot reach, unless the clean conductance is stated', () => {
    const design = { ...plainUnit('E-1').design, coldOut: celsius(45), hotOut: celsius(35) };
    const coCurrent = { arrangement: { kind: 'co-current' }, design };
    expect(faultsOf(fleetWith(coCurrent))).toEqual([
      'units[0] (E-1).design: these temperatures and flows cannot be reached in this arrangement; check them, or state cleanU',
    ]);
    const cleanU = { value: 2000, unit: 'W/(m2.K)' };
    expect(faultsOf(fleetWith({ ...coCurrent, design: { ...design, cleanU } }))).toEqual([]);
  });

  it('needs either an area or plates, not both', () => {
    const plates = { count: 101, areaEach: { value: 0.5, unit: 'm2' } };
    expect(faultsOf(fleetWith({ plates }))[0]).toContain('either "area" or "plates"');
    expect(faultsOf(fleetWith({ area: undefined }))[0]).toContain('either "area" or "plates"');
    expect(faultsOf(fleetWith({ area: undefined, plates }))).toEqual([]);
  });
});

describe('toExchanger', () => {
  const exchanger = (changes: Partial<Unit>) => toExchanger(plainUnit('E-1', changes));

  it('leaves the two end plates out of the area: 101 plates of 0.5 m² transfer over 49.5 m² (common practice)', () => {
    const plates = { count: 101, areaEach: { value: 0.5, unit: 'm2' } };
    expect(exchanger({ area: undefined, plates }).area).toBeCloseTo(49.5, 12);
  });

  it('takes the direction of a plate unit from its nozzles (common practice)', () => {
    const arrangement = { kind: 'plate' } as const;
    // Reachable either way: the outlets do not cross.
    const design = { ...plainUnit('E-1').design, hotOut: celsius(42), coldOut: celsius(38) };
    const flow = (hotIn: 'top' | 'bottom', coldIn: 'top' | 'bottom') =>
      exchanger({ arrangement, nozzles: { hotIn, coldIn }, design }).arrangement;
    expect(flow('top', 'bottom')).toMatchObject({ flow: 'counter' });
    expect(flow('bottom', 'bottom')).toMatchObject({ flow: 'parallel' });
  });

  it('turns a volume flow into mass with the density at the meter', () => {
    const design = { ...plainUnit('E-1').design, coldFlow: { value: 36, unit: 'm3/h' } };
    const at = (where: 'inlet' | 'outlet') =>
      exchanger({ design, sensors: { coldFlow: { at: where } } }).design.coldFlow;
    // Density of water at 0.1 MPa (IAPWS-IF97, reference grid): 995.65 kg/m³ at 30 °C, 992.22 at 40 °C; 0.5 MPa adds 0.18.
    expect(at('inlet')).toBeCloseTo(9.958, 3);
    expect(at('outlet')).toBeCloseTo(9.924, 3);
  });

  it('fills in films by construction and keeps what is stated', () => {
    expect(exchanger({ construction: 'plate' }).films).toEqual({
      hotShare: 0.475,
      wallShare: 0.05,
      hotExponent: 0.7,
      coldExponent: 0.7,
    });
    expect(exchanger({ construction: 'shell-and-tube' }).films).toMatchObject({
      hotExponent: 0.6,
      coldExponent: 0.8,
    });
    expect(exchanger({ films: { hotShare: 0.3, coldExponent: 0.5 } }).films).toMatchObject({
      hotShare: 0.3,
      coldExponent: 0.5,
    });
  });

  it('takes what is stated of valves and pumps in SI, and 70 % for a pump of which nothing is (common practice)', () => {
    expect(exchanger({}).losses).toEqual({
      heldOutlet: null,
      pumpEfficiency: 0.7,
      cleanPressureDrop: { hot: null, cold: null },
      pumpHead: { hot: null, cold: null },
      maximumFlow: { hot: null, cold: null },
    });
    const pumping = {
      efficiency: 0.6,
      hotClean: { value: 30, unit: 'kPa' },
      coldHead: { value: 2, unit: 'bar' },
      coldMaximumFlow: { value: 36, unit: 'm3/h' },
    };
    const { losses } = exchanger({ pumping, energy: { effect: 'cooling', heldOutlet: 'hot' } });
    expect(losses).toMatchObject({
      heldOutlet: 'hot',
      pumpEfficiency: 0.6,
      cleanPressureDrop: { hot: 30_000, cold: null },
      pumpHead: { hot: null, cold: 200_000 },
    });
    // 36 m³/h of water at the inlet of the meter, as above.
    expect(losses.maximumFlow.cold).toBeCloseTo(9.958, 3);
  });

  it('reads a sensor uncertainty in °F as a difference', () => {
    const sensors = {
      hotIn: { uncertainty: { value: 0.9, unit: '[degF]' } },
      hotFlow: { uncertainty: 0.01 },
    };
    const uncertainties = exchanger({ sensors }).sensors;
    expect(uncertainties.hotIn.absolute).toBeCloseTo(0.5, 12);
    expect(uncertainties.hotFlow).toMatchObject({ absolute: 0, relative: 0.01 });
    expect(uncertainties.coldOut).toMatchObject({ absolute: 0.2, relative: 0 });
  });
});

describe('toCheckSettings', () => {
  it('keeps the defaults and takes what is stated', () => {
    const checks = { balanceTolerance: 0.2, maximumTemperature: { value: 212, unit: '[degF]' } };
    const settings = toCheckSettings(plainUnit('E-1', { checks }));
    expect(settings.balanceTolerance).toBe(0.2);
    expect(settings.maximumTemperature).toBeCloseTo(100, 10);
    expect(settings.turndownFlowShare).toBe(0.3);
  });
});
