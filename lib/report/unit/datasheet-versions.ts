import { formatInstant } from '@/lib/report/format/time';
import type { UnitRecords, VersionRecord } from '@/lib/report/records';

/** One version of the datasheet: since when it holds, what it covers of the record, and when it was saved. */
export type VersionRow = { number: number; holds: string; saved: string; isUsed: boolean };

/** Every version, newest first; none is ever overwritten, and those that hold for a stretch of the record are marked. */
export function datasheetVersions({ record, versions, bases }: UnitRecords): VersionRow[] {
  const { timeZone } = record.site;
  const used = new Set(bases.map(({ unitVersion }) => unitVersion));
  return versions
    .map((version) => ({
      number: version.number,
      holds: holdsInWords(version, timeZone),
      saved: formatInstant(version.savedAt, timeZone),
      isUsed: used.has(version.number),
    }))
    .reverse();
}

function holdsInWords({ unit, number }: VersionRecord, timeZone: string): string {
  if (unit.validFrom !== undefined) return `since ${formatInstant(Date.parse(unit.validFrom), timeZone)}`;
  return number === 1 ? 'from the beginning' : 'from the beginning: a correction';
}
