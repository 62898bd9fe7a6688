import type { ImportPreview } from '@/lib/contract/import-preview';
import type { Mapping } from '@/lib/contract/mapping';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { SENSOR_WORDS } from '@/lib/report/format/words';

/** What a person says of one column or sensor name; an empty tag skips it. */
export type MappingChoice = { name: string; tag: string; sensor: Sensor | ''; unit: string };

/** The quantities a column can hold, in words. */
export const QUANTITIES = SENSORS.map((sensor) => ({ sensor, words: SENSOR_WORDS[sensor] }));

const TEMPERATURE_UNITS = ['Cel', '[degF]', 'K'];
const FLOW_UNITS = ['kg/s', 't/h', 'm3/h', 'L/s', '[gal_us]/min', '[lb_av]/h'];
const PRESSURE_UNITS = ['kPa', 'bar', 'mbar', '[psi]'];

/** Units of measure offered for a sensor; any other UCUM code can be typed. */
export function unitsOfSensor(sensor: Sensor): string[] {
  if (sensor.endsWith('Flow')) return FLOW_UNITS;
  return sensor.endsWith('Drop') ? PRESSURE_UNITS : TEMPERATURE_UNITS;
}

/** The names of a file that nobody has explained yet, or that a mapping explains; empty where the header says it all. */
export function mappingChoices(
  preview: ImportPreview,
  mapping: Mapping | null,
  tags: string[],
): MappingChoice[] {
  const { columns } = preview.format;
  const mapped = new Set(Object.keys(mapping?.sensors ?? {}));
  const names = [
    ...columns.filter(({ name, use }) => use === 'unknown' || mapped.has(name)).map(({ name }) => name),
    ...unknownSensors(preview),
  ];
  const isLong = preview.format.kind === 'long';
  const all = isLong ? [...mapped, ...names] : names;
  return [...new Set(all)].map((name) => {
    const known = mapping?.sensors[name];
    if (known) return { name, tag: known.tag, sensor: known.sensor, unit: known.unit };
    const unit = columns.find((column) => column.name === name)?.unit ?? '';
    return { name, tag: known === null ? '' : tagWithin(name, tags), sensor: '', unit };
  });
}

/** Sensor names of a long file in the rows that would be kept aside for them. */
function unknownSensors({ format, setAside }: ImportPreview): string[] {
  const place = format.columns.findIndex(({ use }) => use === 'sensor');
  return setAside
    .filter(({ reason }) => reason === 'unknown-sensor')
    .map(({ text }) => text.split(format.delimiter)[place]?.replace(/^"|"$/g, '').trim() ?? '')
    .filter((name) => name !== '');
}

/** The longest tag that stands in a column's name: a proposal, shown and open to change. */
function tagWithin(name: string, tags: string[]): string {
  const plain = name.toLowerCase();
  const found = tags.filter((tag) => plain.includes(tag.toLowerCase()));
  return found.sort((a, b) => b.length - a.length)[0] ?? '';
}

/** The mapping that the choices make; names without tag, quantity or unit of measure are skipped. */
export function mappingFrom(choices: MappingChoice[], before: Mapping | null): Mapping {
  const sensors = Object.fromEntries(
    choices.map(({ name, tag, sensor, unit }) => [
      name,
      tag.trim() === '' || sensor === '' || unit.trim() === ''
        ? null
        : { tag: tag.trim(), sensor, unit: unit.trim() },
    ]),
  );
  return { ...before, sensors: { ...before?.sensors, ...sensors } };
}
