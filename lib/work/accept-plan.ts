import { randomUUID } from 'node:crypto';
import { AppError } from '@/lib/contract/app-error';
import type { PlanCleaning, PlanRequest, PlanResult } from '@/lib/contract/plan';
import { type NewWork, savePlan } from '@/lib/store/entities/plans';
import { listUnits, type StoredUnit } from '@/lib/store/entities/units';
import { changing } from './changing';
import type { Context } from './context';
import { editConflict } from './edit-conflict';
import { planToday } from './known-work';

export type PlanAccepted = {
  request: PlanRequest;
  result: PlanResult;
  /** For whom a program accepts it. */
  by?: string | null;
  note: string | null;
  /** Number of the newest accepted plan that was seen, 0 for none; absent where nobody says. */
  after?: number;
};

/**
 * Takes a plan on: its cleanings become dated work in place of what an earlier plan left open. Open work of a unit keeps its
 * calendar entry where it moves; what is no longer planned is called off and kept; done work stands. A plan of one site
 * leaves the work of the others alone, and every plan that of units it was made without.
 *
 * @throws AppError 'invalid-input' for units that do not exist and for work that lies in the past, 'conflict' where somebody else
 *   has accepted one since
 */
export async function acceptPlan(
  context: Context,
  { request, result, by, note, after }: PlanAccepted,
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
  const id = await changing(context, by, (making) =>
    savePlan(making, {
      plan: { note, request, result },
      work: result.cleanings.map((cleaning) => workOf(cleaning, ids.get(cleaning.tag)!)),
      units: spokenFor,
      after: after ?? null,
    }),
  );
  if (id === null) throw await acceptedMeanwhile(context, units[0]!);
  return { id };
}

function acceptedMeanwhile(context: Context, { site }: StoredUnit): Promise<AppError> {
  return editConflict(context, {
    what: 'The plan in force',
    timeZone: site.timeZone,
    changes: { subjects: ['plan'] },
    field: 'after',
  });
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
