import type { KeptChange } from '@/lib/contract/change-record';
import type { ChangesQuery } from '@/lib/contract/changes';

/** A page of changes, newest first, with what their words need. */
export type ChangesRecords = {
  query: ChangesQuery;
  changes: KeptChange[];
  /** How many there are on all pages. */
  total: number;
  /** Where the next page begins; null on the last. */
  next: number | null;
  /** Everybody who has changed something. */
  people: string[];
  /** Zone of the days asked for, and of what belongs to no unit or site. */
  timeZone: string;
  /** Zone of each unit and site by its name. */
  zones: Record<string, string>;
  tags: string[];
};

/** The clock a change is told by: that of its unit or site. */
export function zoneOf(
  { name }: Pick<KeptChange, 'name'>,
  { zones, timeZone }: Pick<ChangesRecords, 'zones' | 'timeZone'>,
): string {
  return zones[name] ?? timeZone;
}
