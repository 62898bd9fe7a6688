import { AppError, type Fault } from '@/lib/contract/app-error';
import { type Calendar, calendarSchema } from '@/lib/contract/calendar';
import { faultsOf } from '@/lib/contract/faults';
import { pairsOf } from '@/lib/report/plan/pairs';
import { outageInstants } from '@/lib/report/plan/plan-input';
import { saveCalendar as store } from '@/lib/store/entities/calendar';
import { listUnits, type StoredSite } from '@/lib/store/entities/units';
import { changing } from './changing';
import type { Context } from './context';
import { editConflict } from './edit-conflict';
import { knownSite } from './known-site';

/**
 * Puts a site's calendar in the place of the one before: outages, crew outside them, units that must not be out together.
 *
 * @throws AppError 'invalid-input' naming each field, 'not-found' for an unknown site, 'conflict' where somebody else has
 *   changed it since
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
  const known = { id: site.id, name: site.name, revision: calendar.revision ?? null };
  const revision = await changing(context, null, (making) =>
    store(making, known, {
      outages,
      crewHoursPerWeek: calendar.crewHoursPerWeek,
      pairs: pairsOf(calendar.notTogether).map(([first, second]) => [ids.get(first)!, ids.get(second)!]),
    }),
  );
  if (revision === null) throw await changedMeanwhile(context, site);
  return { ...calendar, revision };
}

function changedMeanwhile(context: Context, { name, timeZone }: StoredSite): Promise<AppError> {
  const changes = { subjects: ['calendar' as const], name };
  return editConflict(context, { what: `The calendar of ${name}`, timeZone, changes });
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
