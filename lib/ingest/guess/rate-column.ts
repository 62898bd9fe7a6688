import { SENSORS, type Sensor, type Side } from '@/lib/core/exchange/exchanger';
import type { ColumnSample, Spread } from './column-sample';
import { type NameMeaning, nameMeaning, type Told } from './name-meaning';
import { nameRuns, type Run } from './name-runs';
import { plainUnit } from './plain-unit';
import type { End, Measured } from './sensor-words';
import type { TagFinder, TagFound, TagsFound } from './tag-finder';
import type { UnitTargets } from './unit-targets';
import { type ValueEvidence, valueEvidence } from './value-evidence';
import { nameAndUnit } from './written-unit';

/** One sensor that a column may be: how much speaks for it (logarithm of odds) and what. */
export type Candidate = {
  tag: string;
  sensor: Sensor;
  weight: number;
  named: TagFound;
  measured: Told<Measured> | null;
  side: Told<Side> | null;
  end: Told<End> | null;
  values: ValueEvidence;
  targets: UnitTargets;
};

/** What speaks for a column being none of our sensors: as much as a unit's name and half a quantity. */
export const NOTHING = 8;
/** A file named after a unit, or a plant with a single one. */
const FILE_OF_UNIT = 4;
const ONLY_UNIT = 3;
/** A unit of measure says what is measured. */
const BY_UNIT: Told<Measured>['weight'] = 2.5;
const FLUID_WORD = 2;

type Around = {
  spread: Spread | null;
  finder: TagFinder;
  titles: readonly string[];
  units: readonly UnitTargets[];
};

/** Every sensor a column may be; none where its name says that it is something else. */
export function candidatesOf(sample: ColumnSample, around: Around): Candidate[] {
  if (sample.filled > 0 && sample.numbers.length < sample.filled / 2) return [];
  const written = nameAndUnit(sample.name);
  const column = { ...sample, name: written.name, unit: sample.unit || written.unit };
  const found = [column.name, column.description].map((text) => around.finder.find(nameRuns(text)));
  const [name, description] = found as [TagsFound, TagsFound];
  const told = [nameMeaning(name.rest, false), nameMeaning(description.rest, true)] as const;
  if (told[0].other !== null || told[1].other !== null) return [];
  const meaning = merged(...told);
  const words = [...name.rest, ...description.rest];
  const targetsOf = new Map(around.units.map((targets) => [targets.tag, targets]));
  return tagsOf({ name, description }, around).flatMap((named) => {
    const targets = targetsOf.get(named.tag)!;
    const side = meaning.side ?? fluidSide(words, targets);
    return SENSORS.flatMap((sensor) => {
      const candidate = rate(sensor, { ...meaning, side }, { named, targets, column, spread: around.spread });
      return candidate === null ? [] : [candidate];
    });
  });
}

/** The units a column may belong to: by its name, else its description, else the file, else because there is no other. */
function tagsOf(
  { name, description }: { name: TagsFound; description: TagsFound },
  { finder, titles, units }: Around,
): TagFound[] {
  if (name.foreign !== null) return [];
  const isClear = name.tags.some(({ isWeak }) => !isWeak);
  if (isClear) return name.tags;
  if (description.tags.some(({ isWeak }) => !isWeak))
    return description.tags.map((tag) => ({ ...tag, how: tag.how.replace('the name', 'the description') }));
  if (description.foreign !== null) return [];
  if (name.tags.length > 0) return name.tags;
  const ofFile = titles.flatMap((title) => finder.find(nameRuns(title)).tags).filter(({ isWeak }) => !isWeak);
  if (ofFile.length === 1)
    return [{ ...ofFile[0]!, weight: FILE_OF_UNIT, how: `the file is named after ${ofFile[0]!.tag}` }];
  if (units.length !== 1) return [];
  const { tag } = units[0]!;
  return [{ tag, weight: ONLY_UNIT, how: `${tag} is the only unit`, isWeak: false }];
}

function rate(
  sensor: Sensor,
  meaning: Pick<NameMeaning, 'measured' | 'side' | 'end'>,
  of: { named: TagFound; targets: UnitTargets; column: ColumnSample; spread: Spread | null },
): Candidate | null {
  const { named, targets, column, spread } = of;
  const wanted = featuresOf(sensor);
  const values = valueEvidence(targets, sensor, { unit: column.unit, spread });
  if (values === null) return null;
  const measured =
    meaning.measured ??
    (values.isWritten ? { what: wanted.measured, weight: BY_UNIT, by: plainUnit(column.unit!) } : null);
  if (measured !== null && measured.what !== wanted.measured) return null;
  const end = wanted.end === null ? null : meaning.end;
  const weight =
    named.weight +
    (measured?.weight ?? 0) +
    agreement(meaning.side, wanted.side) +
    (wanted.end === null ? END_OF_NO_END : agreement(meaning.end, wanted.end)) +
    values.weight;
  return { tag: named.tag, sensor, weight, named, measured, side: meaning.side, end, values, targets };
}

/** Flows and pressure drops have no end that a name could add to their weight. */
const END_OF_NO_END = 2;

function agreement<What>(told: Told<What> | null, wanted: What): number {
  if (told === null) return 0;
  return told.what === wanted ? told.weight : -told.weight;
}

export function featuresOf(sensor: Sensor): { measured: Measured; side: Side; end: End | null } {
  const side = sensor.startsWith('hot') ? 'hot' : 'cold';
  if (sensor.endsWith('Flow')) return { measured: 'flow', side, end: null };
  if (sensor.endsWith('Drop')) return { measured: 'pressure-drop', side, end: null };
  return { measured: 'temperature', side, end: sensor.endsWith('In') ? 'in' : 'out' };
}

/** The name counts before the description, which fills in what the name leaves open. */
function merged(name: NameMeaning, description: NameMeaning): NameMeaning {
  return {
    measured: pick(name.measured, description.measured),
    side: pick(name.side, description.side),
    end: pick(name.end, description.end),
    other: null,
  };
}

/** Of two that disagree the surer one, weighed against the other. */
function pick<What>(a: Told<What> | null, b: Told<What> | null): Told<What> | null {
  if (a === null || b === null) return a ?? b;
  const [more, less] = a.weight >= b.weight ? [a, b] : [b, a];
  if (more.what === less.what) return more;
  return { ...more, weight: more.weight - less.weight, by: `${more.by} against ${less.by}` };
}

/** The side whose fluid the words name, where only one side has it. */
function fluidSide(words: readonly Run[], { fluidWords }: UnitTargets): Told<Side> | null {
  for (const { text } of words) {
    const side = fluidWords.get(text);
    if (side !== undefined) return { what: side, weight: FLUID_WORD, by: text };
  }
  return null;
}
