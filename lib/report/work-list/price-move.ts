import type { PlanInput } from '@/lib/core/plan/plan-input';
import { outageInstants } from '@/lib/report/plan/plan-input';
import { usualCleaning } from '@/lib/report/plan/usual-cleaning';
import type { AnalysedUnit, PlannedRecord } from '@/lib/report/records';
import { DAY_MS } from '@/lib/time/calendar-day';
import { moveBreaks } from './move-breaks';
import { liesIn, type MoveGiven, type OutageSpan, type Window } from './move-given';

/** What a piece of work is at another time: in which outage, at what cost, and what it breaks there, in words. */
export type MovedWork = Window & { outage: string | null; cost: number; breaks: string[] };

/** Work moved to another time, priced as a plan prices it: out of service costs nothing while the plant is out anyway. */
export function priceMove(work: PlannedRecord, window: Window, given: MoveGiven): MovedWork {
  const { unit, request, input } = given;
  const { site } = unit.record;
  const outages = request.outages
    .filter((outage) => outage.site === undefined || outage.site === site.name)
    .map(
      (outage): OutageSpan => ({
        name: outage.name,
        crewHours: outage.crewHours ?? null,
        ...outageInstants(outage, site.timeZone),
      }),
    );
  const around = outages.find((outage) => liesIn(window, outage)) ?? null;
  const perDay = downtimePerDay(unit, input);
  const downtime = (outage: string | null) =>
    outage === null ? (perDay * (window.to - window.from)) / DAY_MS : 0;
  const usual = usualCleaning(unit.record.unit, unit.cleanings).cost;
  // Nobody has stated what a cleaning costs: then it is what the plan took it for.
  const cleaning = usual > 0 ? usual : Math.max(0, work.cost - downtime(work.outage));
  const outage = around?.name ?? null;
  return {
    ...window,
    outage,
    cost: cleaning + downtime(outage),
    breaks: moveBreaks(work, window, { ...given, outages, around }),
  };
}

function downtimePerDay({ record }: AnalysedUnit, input: PlanInput | null): number {
  const planned = input?.units.find(({ tag }) => tag === record.tag);
  return planned?.cleaning.downtimePerDay ?? 24 * (record.unit.cleaning?.downtimePerHour ?? 0);
}
