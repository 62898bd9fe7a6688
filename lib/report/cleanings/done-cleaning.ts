import type { CleaningEffect, NoResultReason } from '@/lib/core/cycles/cleaning-result';
import { allowanceOf } from '@/lib/report/fleet/fleet-unit';
import { returnedBy } from '@/lib/report/prices/returned-by';
import type { AnalysedUnit, CleaningRecord, FleetRecords } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';
import type { CleaningsPeriod } from './cleanings-period';

/** One recorded cleaning of the fleet: what it did, what that was worth so far, what it cost. */
export type DoneCleaning = {
  tag: string;
  service: string;
  site: string;
  timeZone: string;
  currency: string;
  /** Instant [ms] and local day of the site. */
  at: number;
  day: number;
  method: string | null;
  durationMs: number | null;
  /** Fouling at which its governing limit is reached [m²·K/W]; null without one. */
  allowance: number | null;
  effect: CleaningEffect | null;
  /** Why there is no effect; 'outside-record' where no readings lie on both sides of it. */
  reason: NoResultReason | 'outside-record' | null;
  /** Money at the prices of its days; null without a result, or without a price. */
  worth: number | null;
  hasPrice: boolean;
  /** Money; of the datasheet where nobody wrote down what this one cost; null where neither says. */
  cost: number | null;
  isUsualCost: boolean;
};

/** The cleanings done in a period, the latest first. Planned ones are not among them. */
export function doneCleanings({ units, now }: Pick<FleetRecords, 'units' | 'now'>, period: CleaningsPeriod) {
  return units
    .flatMap((unit) =>
      unit.cleanings.filter(({ at }) => at <= now).map((cleaning) => doneCleaning(unit, cleaning)),
    )
    .filter(({ day }) => (period.from === null || day >= period.from) && day <= period.to)
    .sort((a, b) => b.at - a.at || a.tag.localeCompare(b.tag, 'en', { numeric: true }));
}

function doneCleaning(done: AnalysedUnit, cleaning: CleaningRecord): DoneCleaning {
  const { record, trend } = done;
  const { at, method, cost, durationMs } = cleaning;
  const { site, unit, tag } = record;
  const result = trend?.cleaningResults.find((each) => each.at === at);
  const effect = result?.effect ?? null;
  const usual = unit.cleaning?.cost ?? null;
  return {
    tag,
    service: unit.service ?? '',
    site: site.name,
    timeZone: site.timeZone,
    currency: site.currency,
    at,
    day: localDay(at, site.timeZone),
    method: method === null || method.trim() === '' ? null : method.trim(),
    durationMs,
    allowance: allowanceOf(done),
    effect,
    reason: effect !== null ? null : (result?.reason ?? 'outside-record'),
    worth: returnedBy(done, at),
    hasPrice: done.result?.cost != null,
    cost: cost ?? usual,
    isUsualCost: cost === null && usual !== null,
  };
}

/** What it was worth so far less what it cost [money]; null where either is not known. */
export function netOf({ worth, cost }: Pick<DoneCleaning, 'worth' | 'cost'>): number | null {
  return worth === null || cost === null ? null : worth - cost;
}
