import { AppError, type Fault } from '@/lib/contract/app-error';
import { type Calendar, calendarSchema } from '@/lib/contract/calendar';
import { faultsOf } from '@/lib/contract/faults';
import { pairsOf } from '@/lib/report/plan/pairs';
import { outageInstants } from '@/lib/report/plan/plan-input';
import { saveCalendar as store } from '@/lib/store/entities/calendar';
import { listUnits } from '@/lib/store/entities/units';
import type { Context } from './context';
import { knownSite } from './known-site';

/**
 * Puts a site's calendar in the place of the one before: outages, crew outside them, units that must not be out together.
 *
 * @throws AppError 'invalid-input' naming each field, 'not-found' for an unknown site
 */
export async function saveCalendar(context: Context, document: unknown): Promise<Calendar> {
  const parsed = calendarSchema.safeParse(document);
  if (!parsed.success) throw refused(faultsOf(parsed.error));
  const calendar = parsed.data;
  const site = await knownSite(context, calendar.site);
  const { entities } = context.store;
  const ids = new Map(
    (await listUnits(entities)).map(({ id, tag, site: own }) => [tag, own.id === site.id ? id : null]),
  );
  const outages = calendar.outages.map((outage) => ({
    name: outage.name,
    crewHours: outage.crewHours ?? null,
    ...outageInstants(outage, site.timeZone),
  }));
  const faults: Fault[] = [
    ...outages.flatMap(({ from, to }, index) =>
      from < to ? [] : [{ field: `outages[${index}].to`, message: 'must be after the outage begins' }],
    ),
    ...repeated(outages),
    ...calendar.notTogether.flatMap((group, index) =>
      group.flatMap((tag, place) => {
        if (ids.get(tag)) return [];
        const field = `notTogether[${index}][${place}]`;
        return [{ field, message: `"${tag}" is no unit of ${site.name}` }];
      }),
    ),
  ];
  if (faults.length > 0) throw refused(faults);
  await store(entities, site.id, {
    outages,
    crewHoursPerWeek: calendar.crewHoursPerWeek,
    pairs: pairsOf(calendar.notTogether).map(([first, second]) => [ids.get(first)!, ids.get(second)!]),
  });
  return calendar;
}

function repeated(outages: { name: string; from: number }[]): Fault[] {
  const seen = new Set<string>();
  return outages.flatMap(({ name, from }, index) => {
    const key = `${from} ${name}`;
    if (!seen.has(key)) {
      seen.add(key);
      return [];
    }
    return [{ field: `outages[${index}]`, message: `"${name}" stands already with this beginning` }];
  });
}

function refused(faults: Fault[]): AppError {
  return new AppError('invalid-input', 'The calendar was not saved', faults);
}
