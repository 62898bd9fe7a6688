import { randomUUID } from 'node:crypto';
import { AppError } from '@/lib/contract/app-error';
import type { PlanCleaning, PlanRequest, PlanResult } from '@/lib/contract/plan';
import { type NewWork, savePlan } from '@/lib/store/entities/plans';
import { listUnits } from '@/lib/store/entities/units';
import type { Context } from './context';
import { planToday } from './known-work';

export type PlanAccepted = { request: PlanRequest; result: PlanResult; by: string; note: string | null };

/**
 * Takes a plan on: its cleanings become dated work in place of what an earlier plan left open. Open work of a unit keeps its
 * calendar entry where it moves; what is no longer planned is called off and kept; done work stands. A plan of one site
 * leaves the work of the others alone, and every plan that of units it was made without.
 *
 * @throws AppError 'invalid-input' for units that do not exist and for work that lies in the past
 */
export async function acceptPlan(
  context: Context,
  { request, result, by, note }: PlanAccepted,
): Promise<{ id: number }> {
  const { entities } = context.store;
  const units = await listUnits(entities);
  const ids = new Map(units.map(({ tag, id }) => [tag, id]));
  checkUnits(result.cleanings, ids);
  checkDates(result.cleanings, await planToday(context));
  const spokenFor = units.filter(
    ({ site, tag }) =>
      (request.site === undefined || site.name === request.site) && !saysNothingOf(result, tag),
  );
  const id = await savePlan(entities, {
    plan: { acceptedAt: context.now(), acceptedBy: by, note, request, result },
    work: result.cleanings.map((cleaning) => workOf(cleaning, ids.get(cleaning.tag)!)),
    unitIds: spokenFor.map((unit) => unit.id),
  });
  return { id };
}

/** A unit without figures is left out of a plan: that is no reason to call its work off. */
function saysNothingOf({ leftOut, cleanings }: PlanResult, tag: string): boolean {
  return leftOut.some((unit) => unit.tag === tag) && !cleanings.some((cleaning) => cleaning.tag === tag);
}

function checkUnits(cleanings: PlanCleaning[], ids: ReadonlyMap<string, number>): void {
  const unknown = [...new Set(cleanings.map(({ tag }) => tag))].filter((tag) => !ids.has(tag));
  if (unknown.length === 0) return;
  throw new AppError(
    'invalid-input',
    `The plan cleans units that are not registered: ${unknown.join(', ')}`,
    [{ field: 'cleanings', message: 'register them, or make the plan anew' }],
  );
}

function checkDates(cleanings: PlanCleaning[], today: number): void {
  const past = cleanings.filter(({ start }) => Date.parse(start) < today);
  if (past.length === 0) return;
  const named = past.map(({ tag, start }) => `${tag} (${start})`).join(', ');
  throw new AppError('invalid-input', `Work cannot be planned for the past: ${named}`, [
    {
      field: 'cleanings',
      message: 'give it a later start; a cleaning that was done is recorded on the page of its unit',
    },
  ]);
}

function workOf(cleaning: PlanCleaning, unitId: number): NewWork {
  const { start, end, outage, method, crewHours, cost, saves, reason } = cleaning;
  return {
    unitId,
    from: Date.parse(start),
    to: Date.parse(end),
    outage,
    method,
    crewHours,
    cost,
    saves,
    reason,
    calendarId: `${randomUUID()}@cleanby`,
  };
}
