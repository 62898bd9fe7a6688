import type { FlowSensor, Sensor, TemperatureSensor } from '@/lib/core/exchange/exchanger';
import { sensorUnit } from '../sensor-unit';
import type { Spread } from './column-sample';
import type { UnitTargets } from './unit-targets';

/** A column read in one unit of measure against what a sensor should read. */
export type ValueEvidence = {
  unit: string;
  /** Logarithm of odds. */
  weight: number;
  /** Whether the unit of measure is written in the file. */
  isWritten: boolean;
  /** Whether the values stand near the design; null where there are no numbers, or nothing to hold them against. */
  fits: boolean | null;
  /** Another unit of measure that would fit about as well, where none is written. */
  rival: string | null;
};

/** For numbers that stand where the design says. */
const FIT = 1.5;
/** How fast the weight falls with the distance, and how far at most. */
const FALL = 1.3;
const LEAST = -8;
/** Distances taken as one: of the temperatures' whole span [-], never below this [K]; of a flow's logarithm [-]. */
const SPAN_SHARE = 0.15;
const LEAST_SPAN_K = 3;
const LOG_FLOW = 0.4;
/** Beyond this distance values do not fit. */
const FIT_WITHIN = 3;
/** A pressure drop has no design figure: it lies within these [Pa]. */
const DROP_RANGE = { low: 100, high: 1e6 };
/** The unit of measure of the datasheet is a little likelier than another. */
const DATASHEET_UNIT = 0.3;
/** Another unit this close in weight might be meant as well. */
const RIVAL_WITHIN = 2;

const TEMPERATURE_UNITS = ['Cel', '[degF]', 'K'];
const FLOW_UNITS = ['kg/s', 'kg/h', 't/h', 'm3/h', 'L/s', 'L/min', '[gal_us]/min', '[lb_av]/h'];
const DROP_UNITS = ['kPa', 'bar', 'mbar', '[psi]'];

/** How a column's values suit a sensor in the likeliest unit of measure; null where its unit measures something else. */
export function valueEvidence(
  targets: UnitTargets,
  sensor: Sensor,
  { unit, spread }: { unit: string | null; spread: Spread | null },
): ValueEvidence | null {
  if (unit !== null && unit !== '') {
    if (sensorUnit(sensor, unit) === null) return null;
    return { ...inUnit(targets, sensor, unit, spread), unit, isWritten: true, rival: null };
  }
  const datasheet = sensor.endsWith('Drop') ? null : targets.writtenUnits[sensor as FlowSensor];
  const units = [...new Set([...(datasheet === null ? [] : [datasheet]), ...unitsOf(sensor)])];
  const ranked = units
    .map((code) => {
      const found = inUnit(targets, sensor, code, spread);
      return { ...found, unit: code, weight: found.weight + (code === datasheet ? DATASHEET_UNIT : 0) };
    })
    .sort((a, b) => b.weight - a.weight);
  const [best, second] = [ranked[0]!, ranked[1]!];
  const rival = best.weight - second.weight < RIVAL_WITHIN ? second.unit : null;
  return { ...best, isWritten: false, rival };
}

function unitsOf(sensor: Sensor): string[] {
  if (sensor.endsWith('Flow')) return FLOW_UNITS;
  return sensor.endsWith('Drop') ? DROP_UNITS : TEMPERATURE_UNITS;
}

function inUnit(
  targets: UnitTargets,
  sensor: Sensor,
  unit: string,
  spread: Spread | null,
): { weight: number; fits: boolean | null } {
  const conversion = sensorUnit(sensor, unit)!;
  if (spread === null) return { weight: 0, fits: null };
  const middle = spread.middle * conversion.factor + conversion.offset;
  if (sensor.endsWith('Drop')) return dropWeight(middle);
  const isVolume = conversion.basisBit !== 0;
  const distance = sensor.endsWith('Flow')
    ? flowDistance(middle, targets.flows[sensor as FlowSensor][isVolume ? 'volume' : 'mass'])
    : temperatureDistance(middle, targets.temperatures, sensor as TemperatureSensor);
  if (distance === null) return { weight: 0, fits: null };
  const weight = Math.max(LEAST, FIT - FALL * Math.log1p(distance ** 2));
  return { weight, fits: distance < FIT_WITHIN };
}

function temperatureDistance(
  middle: number,
  design: UnitTargets['temperatures'],
  sensor: TemperatureSensor,
): number {
  const scale = Math.max(LEAST_SPAN_K, SPAN_SHARE * Math.abs(design.hotIn - design.coldIn));
  return Math.abs(middle - design[sensor]) / scale;
}

function flowDistance(middle: number, design: number | null): number | null {
  if (design === null) return null;
  return middle > 0 ? Math.abs(Math.log(middle / design)) / LOG_FLOW : Number.POSITIVE_INFINITY;
}

function dropWeight(middle: number): { weight: number; fits: boolean | null } {
  const isLikely = middle > DROP_RANGE.low && middle < DROP_RANGE.high;
  return { weight: isLikely ? FIT / 2 : -2, fits: null };
}
