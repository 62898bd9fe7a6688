import type { PlanResult } from '@/lib/contract/plan';
import { type CalendarCleaning, calendarOf } from '@/lib/report/work-list/calendar';
import { listUnits } from '@/lib/store/entities/units';
import type { Context } from './context';

/** The calendar of a plan that nobody has taken on yet: its cleanings as proposals. */
export async function calendarOfPlan(context: Context, plan: PlanResult): Promise<string> {
  const units = new Map((await listUnits(context.store.entities)).map((unit) => [unit.tag, unit]));
  const cleanings = plan.cleanings.map(({ start, end, ...cleaning }): CalendarCleaning => {
    const known = units.get(cleaning.tag);
    return {
      ...cleaning,
      start: Date.parse(start),
      end: Date.parse(end),
      site: known?.site.name ?? '',
      service: known?.unit.service ?? null,
      isolation: known?.unit.cleaning?.isolation ?? null,
      compatibility: known?.unit.cleaning?.compatibility ?? null,
      calendarId: null,
      revision: 0,
      standing: 'proposed',
    };
  });
  return calendarOf(cleanings, { stamp: context.now() });
}
