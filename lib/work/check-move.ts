import { AppError } from '@/lib/contract/app-error';
import { LONGEST_PLAN_WEEKS } from '@/lib/contract/plan';
import type { WorkMove } from '@/lib/contract/planned';
import { planInput } from '@/lib/report/plan/plan-input';
import type { Planning } from '@/lib/report/plan/planning';
import { type MovedWork, priceMove } from '@/lib/report/work-list/price-move';
import type { StoredPlanned } from '@/lib/store/entities/planned';
import { DAY_MS } from '@/lib/time/calendar-day';
import type { Context } from './context';
import { openWork, planToday } from './known-work';
import { readPlanning } from './read-planning';

const HORIZON_MS = LONGEST_PLAN_WEEKS * 7 * DAY_MS;

/** Open work, and what it would be at another time. */
export type CheckedMove = { work: StoredPlanned; moved: MovedWork };

/**
 * What open work costs at another time, and what it breaks there; it takes as long as before. Nothing is stored.
 *
 * @throws AppError 'not-found' for unknown work, 'conflict' where it is not open, 'invalid-input' for a time that is past,
 *   beyond what plans reach or where it stands already, and outside outages for a unit that is cleaned in outages only
 */
export async function checkMove(
  context: Context,
  id: number,
  { from: stated }: Pick<WorkMove, 'from'>,
): Promise<CheckedMove> {
  const work = await openWork(context, id);
  const from = Date.parse(stated);
  const to = from + work.to - work.from;
  if (from === work.from) throw refused('it stands there already');
  const today = await planToday(context);
  if (from < today) throw refused('it lies in the past; mark work that was done as done');
  if (to > today + HORIZON_MS)
    throw refused(`plans reach ${LONGEST_PLAN_WEEKS} weeks ahead: choose an earlier time`);
  const planning = await readPlanning(context, work.site);
  const unit = planning.fleet.units.find(({ record }) => record.id === work.unitId)!;
  const { request, input } = calendarOf(planning);
  const others = planning.planned.filter((piece) => piece.id !== id);
  const moved = priceMove(work, { from, to }, { unit, request, input, others });
  if (unit.record.unit.cleaning?.inOutageOnly && moved.outage === null)
    throw refused(`${work.tag} is cleaned in outages only: choose a time within one that it fits into`);
  return { work, moved };
}

/** The stored calendar of the site; where there is none, what the plan in force was made with. */
function calendarOf({ fleet, request, input, accepted }: Planning): Pick<Planning, 'request' | 'input'> {
  const isStored =
    request.outages.length > 0 || request.online !== undefined || request.notTogether.length > 0;
  if (accepted === null) return { request, input };
  const { confidence } = accepted.request;
  const own = isStored ? { ...request, confidence } : { ...accepted.request, site: request.site };
  return { request: own, input: planInput(fleet, own).input };
}

function refused(message: string): AppError {
  return new AppError('invalid-input', 'The work cannot be moved there', [{ field: 'from', message }]);
}
