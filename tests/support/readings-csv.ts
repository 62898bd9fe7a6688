import type { Unit } from '@/lib/contract/fleet-file';
import { READING_COLUMNS } from '@/lib/contract/readings';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { loggedUnits } from '@/seed/generate/log-units';

/** Readings as a plant writes them: canonical CSV in the units of measure of the unit's datasheet. */
export function readingsCsv(unit: Unit, readings: ReadingColumns): string {
  const logged = loggedUnits(unit);
  const columns = Object.entries(READING_COLUMNS);
  const header = ['tag', 'time', ...columns.map(([name, sensor]) => `${name}[${logged[sensor].unit}]`)];
  const rows = Array.from(readings.time, (time, i) => {
    const values = columns.map(([, sensor]) => {
      const value = readings[sensor][i]!;
      const { factor, offset } = logged[sensor].conversion;
      return Number.isNaN(value) ? '' : String((value - offset) / factor);
    });
    return [unit.tag, new Date(time).toISOString(), ...values].join(',');
  });
  return `${[header.join(','), ...rows].join('\n')}\n`;
}

/** A text as the bytes of a file that arrives in pieces. */
export async function* bytesOf(text: string, piece = 64 * 1024): AsyncGenerator<Uint8Array> {
  const bytes = new TextEncoder().encode(text);
  for (let at = 0; at < bytes.length; at += piece) yield bytes.subarray(at, at + piece);
}
