import { type CheckSettings, DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { designConductance } from '@/lib/core/clean/design-conductance';
import { directionFromNozzles } from '@/lib/core/exchange/direction';
import type { Arrangement, DesignPoint, Exchanger, Limit, Side } from '@/lib/core/exchange/exchanger';
import { plateArea } from '@/lib/core/exchange/plate-area';
import { isSupportedArrangement } from '@/lib/core/exchange/supported-arrangement';
import type { Fluid, FluidSpec } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { describeOutOfRange } from '@/lib/core/fluids/range';
import { AppError, type Fault } from './app-error';
import { filmsOf } from './film-defaults';
import type { Unit } from './fleet-file';
import { fluidSpec } from './fluid-spec';
import { inSi } from './quantity';
import { sensorUncertainties } from './sensor-defaults';
import { conversionToSi } from './ucum';

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
    ...temperatureFaults(unit),
    ...rangeFaults(unit, fluids),
    ...unsupported(arrangement),
    ...condensingFaults(fluids),
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
    limits: unit.limits.map(limitOf),
    sensors: sensorUncertainties(unit, densities),
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
    return { kind, shellPasses: shellPasses ?? 1, tubePasses: tubePasses ?? 2 * (shellPasses ?? 1) };
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

function temperatureFaults(unit: Unit): Fault[] {
  const [hotIn, hotOut] = [temperature(unit, 'hotIn'), temperature(unit, 'hotOut')];
  const [coldIn, coldOut] = [temperature(unit, 'coldIn'), temperature(unit, 'coldOut')];
  const condensing = unit.hot.fluid === 'steam';
  const faults: Fault[] = [];
  const add = (name: string, message: string) => faults.push({ field: `design.${name}`, message });
  if (hotIn <= coldIn) add('hotIn', 'must be above coldIn: heat flows from the hot stream to the cold one');
  if (condensing ? hotOut > hotIn : hotOut >= hotIn)
    add('hotOut', 'must be below hotIn: the hot stream is cooled');
  if (coldOut <= coldIn) add('coldOut', 'must be above coldIn: the cold stream is heated');
  if (coldOut >= hotIn) add('coldOut', 'must be below hotIn');
  if (hotOut <= coldIn) add('hotOut', 'must be above coldIn');
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
    // A condensing stream enters at its saturation temperature, which rounding may put a hair outside the liquid's range.
    if (fluids[side].condensing !== null) return [];
    const message = describeOutOfRange(fluids[side], temperature(unit, name));
    return message === null ? [] : [{ field: `design.${name}`, message }];
  });
}

function unsupported(arrangement: Arrangement): Fault[] {
  const message = isSupportedArrangement(arrangement);
  return message === null ? [] : [{ field: 'arrangement', message }];
}

function condensingFaults(fluids: Record<Side, Fluid>): Fault[] {
  if (fluids.cold.condensing === null) return [];
  return [{ field: 'cold.fluid', message: 'steam condenses on the hot side; state water for a cold stream' }];
}

function densityAtMeter(unit: Unit, side: Side, fluid: Fluid): number | null {
  const at = unit.sensors?.[`${side}Flow`]?.at ?? 'inlet';
  const name = `${side}${at === 'inlet' ? 'In' : 'Out'}` as const;
  return fluid.density === null ? null : fluid.density(temperature(unit, name));
}

function designOf(unit: Unit, densities: { hotFlow: number | null; coldFlow: number | null }): DesignPoint {
  return {
    hotIn: temperature(unit, 'hotIn'),
    hotOut: temperature(unit, 'hotOut'),
    coldIn: temperature(unit, 'coldIn'),
    coldOut: temperature(unit, 'coldOut'),
    hotFlow: massFlow(unit, 'hotFlow', densities.hotFlow),
    coldFlow: massFlow(unit, 'coldFlow', densities.coldFlow),
    cleanU: unit.design.cleanU === undefined ? null : inSi(unit.design.cleanU, 'conductance'),
  };
}

function massFlow(unit: Unit, name: 'hotFlow' | 'coldFlow', density: number | null): number {
  const given = unit.design[name];
  if (conversionToSi(given.unit, 'massFlow') !== null) return inSi(given, 'massFlow');
  if (density === null || Number.isNaN(density)) {
    const field = `design.${name}`;
    const message = 'is a volume flow, but the fluid states no density: state the density or a mass flow';
    throw new AppError('invalid-input', `${unit.tag}: ${field} ${message}`, [{ field, message }]);
  }
  return inSi(given, 'volumeFlow') * density;
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
