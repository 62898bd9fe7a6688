import type { CleanReferenceRecord } from '@/lib/contract/clean-references';
import { WORKED_OUT_AUTOMATICALLY } from '@/lib/contract/clean-references';
import type { CleanFactors } from '@/lib/core/clean/clean-reference';
import { formatDay, formatInstant } from '@/lib/report/format/time';
import type { UnitBasis, UnitRecords, VersionRecord } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';

type Known = Pick<UnitRecords, 'versions' | 'references'>;

/** "datasheet version 2, since 3 May 2026, 08:00". */
function datasheetInWords(version: VersionRecord, timeZone: string): string {
  const { number, unit } = version;
  if (unit.validFrom === undefined) return `datasheet version ${number}`;
  return `datasheet version ${number}, since ${formatInstant(Date.parse(unit.validFrom), timeZone)}`;
}

/** "clean reference 4, accepted by J. Silva on 3 May 2026: two films after the acid wash". */
function referenceInWords(reference: CleanReferenceRecord, timeZone: string): string {
  const { number, acceptedBy, acceptedAt, reason } = reference;
  if (acceptedBy === WORKED_OUT_AUTOMATICALLY) return `clean reference ${number}, ${acceptedBy}: ${reason}`;
  const day = formatDay(localDay(acceptedAt, timeZone));
  return `clean reference ${number}, accepted by ${acceptedBy} on ${day}: ${reason}`;
}

/** What a stretch of the record was judged by: its datasheet, and what counts as clean there. */
export function basisInWords(basis: UnitBasis, known: Known, timeZone: string): string[] {
  const version = known.versions.find(({ number }) => number === basis.unitVersion);
  const reference = known.references.find(({ number }) => number === basis.reference);
  return [
    version === undefined ? `datasheet version ${basis.unitVersion}` : datasheetInWords(version, timeZone),
    reference === undefined ? statedInWords(basis) : referenceInWords(reference, timeZone),
  ];
}

/** What counts as clean where no reference was accepted. */
function statedInWords({ exchanger, cleanFactors }: UnitBasis): string {
  if (exchanger.clean === 'test') return 'one clean test, as the datasheet states it';
  if (exchanger.clean === 'learned' && !isAsOnDatasheet(cleanFactors)) {
    return 'one factor on the clean resistance, still being learned from the days after a cleaning';
  }
  return 'clean films as on the datasheet';
}

/** Whether the clean resistances are those of the datasheet. */
export function isAsOnDatasheet({ hot, wall, cold }: CleanFactors): boolean {
  return hot === 1 && wall === 1 && cold === 1;
}
