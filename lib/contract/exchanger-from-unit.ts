import { type CheckSettings, DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { designConductance } from '@/lib/core/clean/design-conductance';
import { directionFromNozzles } from '@/lib/core/exchange/direction';
import type {
  Arrangement,
  DesignPoint,
  Exchanger,
  FlowSensor,
  Limit,
  Side,
} from '@/lib/core/exchange/exchanger';
import { plateArea } from '@/lib/core/exchange/plate-area';
import { isSupportedArrangement } from '@/lib/core/exchange/supported-arrangement';
import type { Fluid, FluidSpec } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { describeOutOfRange } from '@/lib/core/fluids/range';
import { drivingTemperatures } from '@/lib/core/fouling/enthalpy-change';
import { PRESSURE_DROP_EXPONENT } from '@/lib/core/series/pressure-drop';
import { AppError, type Fault } from './app-error';
import { filmsOf } from './film-defaults';
import type { Unit } from './fleet-file';
import { fluidSpec } from './fluid-spec';
import { lossSettings } from './loss-settings';
import { type MeterDensities, massFlow } from './mass-flow';
import { inSi } from './quantity';
import { sensorUncertainties } from './sensor-defaults';

/** How far a datasheet's saturation temperature may lie from its pressure's, rounded [K]. */
const SATURATION_ROUNDING = 1;

/**
 * A unit's datasheet as the numeric core sees it, in SI.
 *
 * @throws AppError 'invalid-input' naming every field whose figures cannot be (temperatures the wrong way round, a fluid
 *   outside its range, passes that no formula covers)
 */
export function toExchanger(unit: Unit): Exchanger {
  const specs = { hot: specOf(unit, 'hot'), cold: specOf(unit, 'cold') };
  const fluids = { hot: fluidOf(specs.hot, 'hot'), cold: fluidOf(specs.cold, 'cold') };
  const arrangement = arrangementOf(unit);
  const faults = [
    ...temperatureFaults(unit, fluids),
    ...rangeFaults(unit, fluids),
    ...unsupported(arrangement),
    ...phaseFaults(fluids),
  ];
  if (faults.length > 0)
    throw new AppError('invalid-input', `${unit.tag}: ${faults.length} fields cannot be`, faults);
  const densities = {
    hotFlow: densityAtMeter(unit, 'hot', fluids.hot),
    coldFlow: densityAtMeter(unit, 'cold', fluids.cold),
  };
  const exchanger: Exchanger = {
    arrangement,
    area: areaOf(unit),
    ...specs,
    hotMeterAt: unit.sensors?.hotFlow?.at ?? 'inlet',
    coldMeterAt: unit.sensors?.coldFlow?.at ?? 'inlet',
    design: designOf(unit, densities),
    films: filmsOf(unit),
    clean: unit.clean ?? 'datasheet',
    nominalFlows: {
      hot: nominalFlow(unit, 'hotFlow', densities.hotFlow),
      cold: nominalFlow(unit, 'coldFlow', densities.coldFlow),
    },
    pressureDropExponents: {
      hot: unit.pressureDrop?.hotExponent ?? PRESSURE_DROP_EXPONENT,
      cold: unit.pressureDrop?.coldExponent ?? PRESSURE_DROP_EXPONENT,
    },
    limits: unit.limits.map(limitOf),
    sensors: sensorUncertainties(unit, densities),
    losses: lossSettings(unit, densities),
  };
  refuseUnreachable(unit, exchanger, fluids);
  return exchanger;
}

/** Without a stated clean conductance it follows from the design point, which must then be one the arrangement can reach. */
function refuseUnreachable(unit: Unit, exchanger: Exchanger, fluids: Record<Side, Fluid>): void {
  if (exchanger.design.cleanU !== null || designConductance(exchanger, fluids) > 0) return;
  const message =
    'these temperatures and flows cannot be reached in this arrangement; check them, or state cleanU';
  throw new AppError('invalid-input', `${unit.tag}: design: ${message}`, [{ field: 'design', message }]);
}

/** The screening thresholds of a unit: the defaults, with what its datasheet states. */
export function toCheckSettings(unit: Unit): CheckSettings {
  const { minimumTemperature, maximumTemperature, ...stated } = unit.checks ?? {};
  const settings = { ...DEFAULT_CHECK_SETTINGS, ...stated };
  if (minimumTemperature) settings.minimumTemperature = inSi(minimumTemperature, 'temperature');
  if (maximumTemperature) settings.maximumTemperature = inSi(maximumTemperature, 'temperature');
  return settings;
}

function specOf(unit: Unit, side: Side): FluidSpec {
  return fluidSpec(unit[side], side);
}

function fluidOf(spec: FluidSpec, side: Side): Fluid {
  try {
    return makeFluid(spec);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new AppError('invalid-input', error.message, [{ field: side, message: error.message }]);
  }
}

function arrangementOf(unit: Unit): Arrangement {
  const { kind, shellPasses, tubePasses, mixed, hotPasses, coldPasses } = unit.arrangement;
  if (kind === 'shell-and-tube')
    return {
      kind,
      shellPasses: shellPasses ?? 1,
      tubePasses: tubePasses ?? 2 * (shellPasses ?? 1),
      tubeSide: unit.tubeSide ?? 'cold',
    };
  if (kind === 'crossflow') return { kind, mixed: mixed ?? 'none' };
  if (kind !== 'plate') return { kind };
  const flow = unit.nozzles === undefined ? 'counter' : directionFromNozzles(unit.nozzles);
  return { kind, hotPasses: hotPasses ?? 1, coldPasses: coldPasses ?? 1, flow };
}

function areaOf(unit: Unit): number {
  if (unit.area !== undefined) return inSi(unit.area, 'area');
  const plates = unit.plates!;
  return plateArea(plates.count, inSi(plates.areaEach, 'area'));
}

function temperature(unit: Unit, name: 'hotIn' | 'hotOut' | 'coldIn' | 'coldOut'): number {
  return inSi(unit.design[name], 'temperature');
}

function temperatureFaults(unit: Unit, fluids: Record<Side, Fluid>): Fault[] {
  const [hotIn, hotOut] = [temperature(unit, 'hotIn'), temperature(unit, 'hotOut')];
  const [coldIn, coldOut] = [temperature(unit, 'coldIn'), temperature(unit, 'coldOut')];
  // A pressure stated sets the saturation temperature, whatever the design temperature says.
  const ends = drivingTemperatures(fluids, { hotIn, hotOut, coldIn, coldOut });
  const isCondensing = fluids.hot.phaseChange !== null;
  const isEvaporating = fluids.cold.phaseChange !== null;
  const faults: Fault[] = [];
  const add = (name: string, message: string) => faults.push({ field: `design.${name}`, message });
  if (ends.hotIn <= coldIn)
    add('hotIn', 'must be above coldIn: heat flows from the hot stream to the cold one');
  if (isCondensing ? hotOut > hotIn : hotOut >= hotIn)
    add('hotOut', 'must be below hotIn: the hot stream is cooled');
  if (isEvaporating ? coldOut < coldIn : coldOut <= coldIn)
    add('coldOut', 'must be above coldIn: the cold stream is heated');
  if (ends.coldOut >= ends.hotIn) add('coldOut', 'must be below hotIn');
  if (hotOut <= coldIn) add('hotOut', 'must be above coldIn');
  else if (isEvaporating && hotOut <= ends.coldOut)
    add('hotOut', 'must be above the temperature at which the cold stream evaporates');
  return faults;
}

function rangeFaults(unit: Unit, fluids: Record<Side, Fluid>): Fault[] {
  const sides = [
    ['hot', 'hotIn'],
    ['hot', 'hotOut'],
    ['cold', 'coldIn'],
    ['cold', 'coldOut'],
  ] as const;
  return sides.flatMap(([side, name]) => {
    const fluid = fluids[side];
    const stated = temperature(unit, name);
    const message = isAboutSaturation(fluid, stated) ? null : describeOutOfRange(fluid, stated);
    return message === null ? [] : [{ field: `design.${name}`, message }];
  });
}

/** Rounding may put the saturation temperature a hair outside the liquid's range. */
function isAboutSaturation({ phaseChange, minimum, maximum }: Fluid, stated: number): boolean {
  return (
    phaseChange !== null && stated > minimum - SATURATION_ROUNDING && stated < maximum + SATURATION_ROUNDING
  );
}

function unsupported(arrangement: Arrangement): Fault[] {
  const message = isSupportedArrangement(arrangement);
  return message === null ? [] : [{ field: 'arrangement', message }];
}

function phaseFaults(fluids: Record<Side, Fluid>): Fault[] {
  if (fluids.hot.phaseChange === null || fluids.cold.phaseChange === null) return [];
  const message =
    'cannot evaporate against a stream that condenses: neither has a capacity rate, so Cr is undefined; state one of them as a single-phase fluid';
  return [{ field: 'cold.fluid', message }];
}

function densityAtMeter(unit: Unit, side: Side, fluid: Fluid): number | null {
  const at = unit.sensors?.[`${side}Flow`]?.at ?? 'inlet';
  const name = `${side}${at === 'inlet' ? 'In' : 'Out'}` as const;
  if (fluid.density === null || isInVapour(fluid, name)) return null;
  return fluid.density(temperature(unit, name));
}

/** Vapour enters a side that condenses and leaves one that evaporates; the density of the fluid is the liquid's. */
function isInVapour({ phaseChange }: Fluid, place: string): boolean {
  return phaseChange !== null && (place === 'hotIn' || place === 'coldOut');
}

function designOf(unit: Unit, densities: MeterDensities): DesignPoint {
  return {
    hotIn: temperature(unit, 'hotIn'),
    hotOut: temperature(unit, 'hotOut'),
    coldIn: temperature(unit, 'coldIn'),
    coldOut: temperature(unit, 'coldOut'),
    hotFlow: massFlow(unit, { given: unit.design.hotFlow, field: 'design.hotFlow' }, densities.hotFlow),
    coldFlow: massFlow(unit, { given: unit.design.coldFlow, field: 'design.coldFlow' }, densities.coldFlow),
    cleanU: unit.design.cleanU === undefined ? null : inSi(unit.design.cleanU, 'conductance'),
  };
}

function nominalFlow(unit: Unit, sensor: FlowSensor, density: number | null): number | null {
  const given = unit.sensors?.[sensor]?.nominal;
  if (given === undefined) return null;
  return massFlow(unit, { given, field: `sensors.${sensor}.nominal` }, density);
}

function limitOf(limit: Unit['limits'][number]): Limit {
  switch (limit.kind) {
    case 'fouling-resistance':
      return { kind: limit.kind, value: inSi(limit.value, 'foulingResistance') };
    case 'cleanliness':
      return limit;
    case 'outlet-temperature':
      return {
        kind: limit.kind,
        stream: limit.stream,
        above: limit.above === undefined ? null : inSi(limit.above, 'temperature'),
        below: limit.below === undefined ? null : inSi(limit.below, 'temperature'),
      };
    case 'pressure-drop':
      return { kind: limit.kind, stream: limit.stream, above: inSi(limit.above, 'pressure') };
  }
}
