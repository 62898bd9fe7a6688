import { cleaningRow } from '@/lib/report/cleanings/cleaning-row';
import { doneCleanings } from '@/lib/report/cleanings/done-cleaning';
import { formatFigureText, MISSING } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { AnalysedUnit, FleetRecords } from '@/lib/report/records';

/** What a cleaning did, or why nobody can say yet. */
export type DoneResult = {
  hasResult: boolean;
  recovered: string;
  /** Duty won just after it. */
  duty: string;
  /** Money so far, with the days behind it; a floor. */
  worth: string;
  until: string;
};

/** Figures of so many days after a cleaning are the fewest that tell what it did [-] (lib/core/cycles/level-beside). */
const FEWEST_DAYS = 3;
const TOO_EARLY = `too early to tell: needs figures of ${FEWEST_DAYS} days after it`;
const NO_RESULT = { hasResult: false, duty: MISSING, worth: MISSING, until: '' };

/** What the cleaning at an instant did: measured from the readings before and after it. */
export function doneResult(
  unit: AnalysedUnit,
  { at, fleet, system }: { at: number; fleet: FleetRecords; system: UnitSystem },
): DoneResult {
  const done = doneCleanings({ ...fleet, units: [unit] }, { from: null, to: Number.POSITIVE_INFINITY }).find(
    (cleaning) => cleaning.at === at,
  );
  const isEarly =
    done === undefined ||
    done.reason === 'too-few-after' ||
    (done.reason === 'outside-record' && !hasReadingsBeyond(unit, at));
  if (isEarly) return { ...NO_RESULT, recovered: TOO_EARLY };
  const row = cleaningRow(done, { system, units: null });
  return {
    hasResult: row.hasResult,
    recovered: row.recovered,
    duty: formatFigureText(done.effect?.dutyRecovered, 'power', system, { digits: 2 }),
    worth: row.worth,
    until: row.until,
  };
}

function hasReadingsBeyond({ trend }: AnalysedUnit, at: number): boolean {
  return trend !== null && trend.lastReading !== null && trend.lastReading > at;
}
