import type { ColumnGuess, MappedColumn, MappingTask } from '@/lib/contract/column-guess';
import { SURE } from '@/lib/contract/guess-sureness';
import type { Mapping } from '@/lib/contract/mapping';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { SENSOR_WORDS } from '@/lib/report/format/words';

/** What a person says of one column: nothing yet, which sensor it is, or that it is skipped. */
export type MappingChoice = {
  name: string;
  tag: string;
  sensor: Sensor | '';
  unit: string;
  isSkipped: boolean;
};

/** The quantities a column can hold, in words. */
export const QUANTITIES = SENSORS.map((sensor) => ({ sensor, words: SENSOR_WORDS[sensor] }));

const TEMPERATURE_UNITS = ['Cel', '[degF]', 'K'];
const FLOW_UNITS = ['kg/s', 'kg/h', 't/h', 'm3/h', 'L/s', '[gal_us]/min', '[lb_av]/h'];
const PRESSURE_UNITS = ['kPa', 'bar', 'mbar', '[psi]'];

/** Units of measure offered for a sensor; any other UCUM code can be typed. */
export function unitsOfSensor(sensor: Sensor): string[] {
  if (sensor.endsWith('Flow')) return FLOW_UNITS;
  return sensor.endsWith('Drop') ? PRESSURE_UNITS : TEMPERATURE_UNITS;
}

/** The choices a mapping makes; a guess is none until a person says yes. */
export function choicesOf(columns: readonly MappedColumn[], mapping: Mapping | null): MappingChoice[] {
  return columns.map(({ name, writtenUnit }) => {
    const known = knownSensor(name, mapping);
    if (known) return { name, ...known, isSkipped: false };
    return { name, tag: '', sensor: '', unit: writtenUnit ?? '', isSkipped: known === null };
  });
}

/** What a mapping says of a name, as written or without the unit in brackets behind it. */
function knownSensor(name: string, mapping: Mapping | null): Mapping['sensors'][string] | undefined {
  const sensors = mapping?.sensors ?? {};
  const forms = [name, name.trim(), name.split('[')[0]!.trim()];
  const key = forms.find((form) => Object.hasOwn(sensors, form));
  return key === undefined ? undefined : sensors[key];
}

export function isComplete({ tag, sensor, unit, isSkipped }: MappingChoice): boolean {
  return !isSkipped && tag.trim() !== '' && sensor !== '' && unit.trim() !== '';
}

export function isSure(guess: ColumnGuess | null): guess is ColumnGuess {
  return guess !== null && guess.confidence >= SURE;
}

export function isOpen(choice: MappingChoice): boolean {
  return !choice.isSkipped && !isComplete(choice);
}

export function withGuess(choice: MappingChoice, { tag, sensor, unit }: ColumnGuess): MappingChoice {
  return { ...choice, tag, sensor, unit, isSkipped: false };
}

/** Whether a choice says what the guess says. */
export function isAsGuessed({ tag, sensor, unit, isSkipped }: MappingChoice, guess: ColumnGuess): boolean {
  return !isSkipped && tag === guess.tag && sensor === guess.sensor && unit === guess.unit;
}

/** The mapping that the choices make; columns left open are skipped. */
export function mappingFrom(
  choices: readonly MappingChoice[],
  { before, timeColumn }: { before: Mapping | null; timeColumn: string | null },
): Mapping {
  const sensors = Object.fromEntries(
    choices.map((choice) => {
      const { name, tag, sensor, unit } = choice;
      if (!isComplete(choice) || sensor === '') return [name, null];
      return [name, { tag: tag.trim(), sensor, unit: unit.trim() }];
    }),
  );
  const time = timeColumn === null ? {} : { timeColumn };
  return { ...before, ...time, sensors: { ...before?.sensors, ...sensors } };
}

export type ColumnFilter = 'all' | 'open' | 'doubtful';

/** Places of the columns a filter shows: all, those without a sensor yet, those whose guess wants a look. */
export function shownPlaces(
  choices: readonly MappingChoice[],
  columns: readonly MappedColumn[],
  filter: ColumnFilter,
): number[] {
  return choices.flatMap((choice, place) => {
    if (filter === 'all') return [place];
    if (!isOpen(choice)) return [];
    const { guess } = columns[place]!;
    return filter === 'open' || (guess !== null && !isSure(guess)) ? [place] : [];
  });
}

export type ChoiceCounts = {
  all: number;
  taken: number;
  skipped: number;
  open: number;
  doubtful: number;
  sure: number;
};

/** `sure`: open columns whose guess is sure. */
export function countChoices(choices: readonly MappingChoice[], { columns }: MappingTask): ChoiceCounts {
  const counts = { all: choices.length, taken: 0, skipped: 0, open: 0, doubtful: 0, sure: 0 };
  for (const [place, choice] of choices.entries()) {
    if (choice.isSkipped) counts.skipped++;
    else if (isComplete(choice)) counts.taken++;
    else {
      counts.open++;
      const { guess } = columns[place]!;
      if (isSure(guess)) counts.sure++;
      else if (guess !== null) counts.doubtful++;
    }
  }
  return counts;
}
