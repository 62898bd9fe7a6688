import { READING_COLUMNS } from '@/lib/contract/readings';
import type { Sensor } from '@/lib/core/exchange/exchanger';
import { csvText } from '@/lib/report/format/csv';
import type { UnitSystem } from '@/lib/report/format/unit-system';

const SI_UNITS = { temperature: 'Cel', flow: 'kg/s', pressure: 'kPa' };
const US_UNITS = { temperature: 'degF', flow: 'gpm', pressure: 'psi' };
const SI_EXAMPLE = ['50.2', '40.1', '30.0', '39.8', '10.00', '10.20', '35', ''];
const US_EXAMPLE = ['122.4', '104.2', '86.0', '103.6', '158.5', '161.7', '5.1', ''];

/** The header of a canonical readings file and one example row of a unit, in the reader's units. */
export function canonicalTemplate(
  system: UnitSystem,
  tag: string,
): { header: string; example: string; csv: string } {
  const units = system === 'si' ? SI_UNITS : US_UNITS;
  const columns = Object.entries(READING_COLUMNS).map(
    ([name, sensor]) => `${name}[${units[kindOf(sensor)]}]`,
  );
  const header = ['tag', 'time', ...columns].join(',');
  const values = system === 'si' ? SI_EXAMPLE : US_EXAMPLE;
  const example = csvText([[tag, '2026-05-04T08:00:00+01:00', ...values]]).trimEnd();
  return { header, example, csv: `${header}\r\n${example}\r\n` };
}

function kindOf(sensor: Sensor): keyof typeof SI_UNITS {
  if (sensor.endsWith('Flow')) return 'flow';
  return sensor.endsWith('Drop') ? 'pressure' : 'temperature';
}
