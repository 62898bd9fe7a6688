import type { Fault } from '@/lib/contract/app-error';
import type { PlanProblem, Schedule } from '@/lib/core/plan/plan-problem';
import type { FleetRecords } from '@/lib/report/records';
import { localMoment } from '@/lib/time/local-moment';

/** A cleaning begins at an option when it is this close to it [days]: two minutes. */
const CLOSE = 2 / 1440;

/** Cleanings by tag and beginning as options of a problem; one that begins where none can is a fault. */
export function draftSchedule(
  problem: PlanProblem,
  fleet: FleetRecords,
  cleanings: readonly { tag: string; start: string }[],
): { schedule: Schedule; faults: Fault[] } {
  const schedule: Schedule = problem.units.map(() => []);
  const faults: Fault[] = [];
  cleanings.forEach(({ tag, start }, index) => {
    const unit = problem.units.findIndex((each) => each.tag === tag);
    const zone = fleet.units.find(({ record }) => record.tag === tag)?.record.site.timeZone;
    if (unit === -1 || zone === undefined) {
      faults.push({ field: `cleanings[${index}].tag`, message: `"${tag}" cannot be planned` });
      return;
    }
    const moment = localMoment(Date.parse(start), zone);
    const option = problem.units[unit]!.options.findIndex((each) => Math.abs(each.start - moment) < CLOSE);
    if (option === -1) {
      const message = `${tag} cannot be cleaned from ${start} on: begin with an outage it fits into, or on a Monday where there is a crew`;
      faults.push({ field: `cleanings[${index}].start`, message });
      return;
    }
    schedule[unit]!.push(option);
  });
  for (const options of schedule) options.sort((a, b) => a - b);
  return { schedule, faults };
}
