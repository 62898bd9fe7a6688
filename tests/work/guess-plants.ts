import type { Unit } from '@/lib/contract/fleet-file';
import { conversionToSi } from '@/lib/contract/ucum';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { makeRandom, type Random } from '@/lib/core/stats/random';
import { type ColumnSample, emptySample, takeCell } from '@/lib/ingest/guess/column-sample';
import { unitTargets } from '@/lib/ingest/guess/unit-targets';
import { sensorUnit } from '@/lib/ingest/sensor-unit';
import { StatusWords } from '@/lib/ingest/status-words';
import { makeHeldOutFleet } from '@/seed/held-out';

/** One instrument as a plant names it; `truth` is null where it is none of a registered unit's sensors. */
type Named = { name: string; description?: string; unit?: string | null };
export type Truth = { tag: string; sensor: Sensor; unit: string } | null;

/** How a plant calls things. `number` is the unit's number, such as 203. */
export type Scheme = {
  name: string;
  tagOf: (number: number) => string;
  sensor: (sensor: Sensor, at: { number: number; place: number; unit: string }) => Named;
  decoys: (at: { number: number; place: number }) => (Named & { like: Sensor | number })[];
  titles?: string[];
};

export type Plant = {
  scheme: string;
  units: Unit[];
  titles: string[];
  columns: ColumnSample[];
  truth: Truth[];
};

const ROWS = 120;
const READING = { decimalComma: false, status: new StatusWords([]) };

/** A plant of a scheme with known truth: its units, its columns in random order, and what each column is. */
export function makePlant(scheme: Scheme, seed: number, count = 8): Plant {
  const random = makeRandom(seed);
  const { fleet } = makeHeldOutFleet(seed, count);
  const first = 101 + 100 * Math.floor(random.uniform() * 8);
  const units = fleet.units.map((unit, i) => ({ ...unit, tag: scheme.tagOf(first + i) }));
  const rows = units.flatMap((unit, i) => columnsOf(unit, { scheme, random, number: first + i, place: i }));
  const shuffled = rows
    .map((row) => ({ row, at: random.uniform() }))
    .sort((a, b) => a.at - b.at)
    .map(({ row }) => row);
  return {
    scheme: scheme.name,
    units,
    titles: scheme.titles ?? ['hourly.csv'],
    columns: shuffled.map(({ sample }) => sample),
    truth: shuffled.map(({ truth }) => truth),
  };
}

type Made = { sample: ColumnSample; truth: Truth };
type Making = { scheme: Scheme; random: Random; number: number; place: number };

function columnsOf(unit: Unit, making: Making): Made[] {
  const { scheme, random, number, place } = making;
  const state = stateOf(random);
  const sensors = SENSORS.filter((sensor) => !sensor.endsWith('Drop') || random.uniform() < 0.4).filter(
    (sensor) => !sensor.endsWith('Flow') || random.uniform() < 0.85,
  );
  const real = sensors.map((sensor): Made => {
    const unitWritten = writtenUnit(unit, sensor);
    const named = scheme.sensor(sensor, { number, place, unit: unitWritten });
    const values = valuesOf(unit, sensor, { unit: unitWritten, state, random });
    return { sample: sampleOf(named, values), truth: { tag: unit.tag, sensor, unit: unitWritten } };
  });
  const decoys = scheme.decoys({ number, place }).map(({ like, ...named }): Made => {
    const unitWritten = typeof like === 'number' ? '' : writtenUnit(unit, like);
    const values =
      typeof like === 'number'
        ? Array.from({ length: ROWS }, () => like * (1 + 0.05 * random.normal()))
        : valuesOf(unit, like, { unit: unitWritten, state, random });
    return { sample: sampleOf(named, values), truth: null };
  });
  return [...real, ...decoys];
}

function sampleOf({ name, description = '', unit = null }: Named, values: number[]): ColumnSample {
  const sample = emptySample({ name, description, unit });
  for (const value of values) takeCell(sample, String(Number(value.toFixed(3))), READING);
  return sample;
}

/** How a unit runs in the rows looked at: load, fouling, weather. */
type State = { load: number; fouling: number; season: number };

function stateOf(random: Random): State {
  return {
    load: 0.7 + 0.35 * random.uniform(),
    fouling: 0.4 * random.uniform(),
    season: 3 * random.normal(),
  };
}

type Reading = { unit: string; state: State; random: Random };

function valuesOf(unit: Unit, sensor: Sensor, { unit: written, state, random }: Reading): number[] {
  const { factor, offset } = sensorUnit(sensor, written)!;
  const level = levelOf(unit, sensor, state);
  const noise = sensor.endsWith('In') || sensor.endsWith('Out') ? 0.8 : 0.03 * level;
  return Array.from({ length: ROWS }, (_, i) => {
    const swing = noise * (Math.sin(i / 8) + 0.4 * random.normal());
    return (level + swing - offset) / factor;
  });
}

/** What a sensor reads, in the SI of its unit of measure: outlets move towards their inlets as the unit fouls. */
function levelOf({ design }: Unit, sensor: Sensor, { load, fouling, season }: State): number {
  const celsius = (name: 'hotIn' | 'hotOut' | 'coldIn' | 'coldOut') => {
    const { factor, offset } = conversionToSi(design[name].unit, 'temperature')!;
    return design[name].value * factor + offset;
  };
  if (sensor.endsWith('Drop')) return 40_000 * load ** 1.8;
  if (sensor === 'hotFlow' || sensor === 'coldFlow') {
    const { factor } = sensorUnit(sensor, design[sensor].unit)!;
    return design[sensor].value * factor * load;
  }
  const hotIn = celsius('hotIn') + season / 2;
  const coldIn = celsius('coldIn') + season;
  if (sensor === 'hotIn') return hotIn;
  if (sensor === 'coldIn') return coldIn;
  const left = 1 - fouling;
  if (sensor === 'hotOut') return hotIn - (celsius('hotIn') - celsius('hotOut')) * left;
  return coldIn + (celsius('coldOut') - celsius('coldIn')) * left;
}

function writtenUnit({ design }: Unit, sensor: Sensor): string {
  if (sensor.endsWith('Drop')) return design.hotIn.unit === '[degF]' ? '[psi]' : 'kPa';
  return design[sensor as 'hotIn'].unit;
}

export const targetsOf = (plant: Plant) => plant.units.map(unitTargets);
