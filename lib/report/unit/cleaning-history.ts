import type { CleaningChangeRecord } from '@/lib/contract/cleaning-request';
import { formatMoney } from '../format/figure';
import { formatInstant } from '../format/time';
import type { AnalysedUnit, UnitRecords } from '../records';

/** A recorded cleaning as it stood before somebody corrected or withdrew it. */
export type CleaningChangeRow = {
  key: string;
  /** As it stood. */
  stood: string;
  figures: string;
  /** What became of it, and when. */
  became: string;
  by: string;
  reason: string;
};

/** Earlier states of a unit's cleanings, the latest change first. */
export function cleaningHistory({
  record: { site },
  cleaningChanges,
}: Pick<AnalysedUnit, 'record'> & Pick<UnitRecords, 'cleaningChanges'>): CleaningChangeRow[] {
  const { timeZone, currency } = site;
  return cleaningChanges
    .map((change, index) => ({
      key: `${index}`,
      stood: formatInstant(change.at, timeZone),
      figures: figuresOf(change, currency),
      became: `${change.kind} ${formatInstant(change.changedAt, timeZone)}`,
      by: change.by ?? 'recorded again',
      reason: change.reason ?? '',
    }))
    .reverse();
}

function figuresOf({ method, cost, note }: CleaningChangeRecord, currency: string): string {
  const parts = [
    method,
    cost === null ? null : formatMoney(cost, currency),
    note === null ? null : `“${note}”`,
  ];
  return parts.filter((part) => part !== null && part !== '').join(', ') || 'nothing more stated';
}
