import { CHANGE_SUBJECTS, type KeptChange } from '@/lib/contract/change-record';
import { CHANGES_A_PAGE, type Changes, type ChangesQuery, PEOPLE_SUBJECTS } from '@/lib/contract/changes';
import { changesCsv } from '@/lib/report/changes/changes-csv';
import { changesDocument } from '@/lib/report/changes/changes-document';
import type { ChangesRecords } from '@/lib/report/changes/changes-records';
import {
  type ChangeFilter,
  changersOf,
  countChanges,
  listChanges,
} from '@/lib/store/entities/change-records';
import { listSites, listUnits } from '@/lib/store/entities/units';
import { dayNumber } from '@/lib/time/calendar-day';
import { startOfLocalDay } from '@/lib/time/local-day';
import type { Context } from './context';

/** Rows of a file. */
const MOST_ROWS = 100_000;

/** Whether whoever asks may also read what became of accounts, invitations and tokens. */
export type Reader = { seesPeople: boolean };

/** The changes asked for, a page of them, with what their words need. */
export async function readChanges(
  context: Context,
  query: ChangesQuery,
  reader: Reader,
): Promise<ChangesRecords> {
  const { entities } = context.store;
  const zones = await zonesOf(context);
  const timeZone = zones.byName[query.name ?? ''] ?? zones.usual;
  const filter = filterOf(query, { timeZone, reader });
  const [page, total, people] = await Promise.all([
    listChanges(entities, { ...filter, beforeId: query.before }, CHANGES_A_PAGE + 1),
    countChanges(entities, filter),
    changersOf(entities, filterOf({}, { timeZone, reader })),
  ]);
  const changes = page.slice(0, CHANGES_A_PAGE);
  const next = page.length > CHANGES_A_PAGE ? changes.at(-1)!.id : null;
  return { query, changes, total, next, people, timeZone, zones: zones.byName, tags: zones.tags };
}

/** The same for another program. */
export async function showChanges(context: Context, query: ChangesQuery, reader: Reader): Promise<Changes> {
  return changesDocument(await readChanges(context, query, reader));
}

/** All of them as rows of a file. */
export async function exportChanges(context: Context, query: ChangesQuery, reader: Reader): Promise<string> {
  const zones = await zonesOf(context);
  const timeZone = zones.byName[query.name ?? ''] ?? zones.usual;
  const filter = filterOf(query, { timeZone, reader });
  const changes: KeptChange[] = await listChanges(context.store.entities, filter, MOST_ROWS);
  return changesCsv(changes, { zones: zones.byName, timeZone });
}

/** The clock of every unit and site by its name, and the one that holds for everything else. */
async function zonesOf({ store }: Context) {
  const [sites, units] = await Promise.all([listSites(store.entities), listUnits(store.entities)]);
  return {
    usual: sites[0]?.timeZone ?? 'UTC',
    tags: units.map(({ tag }) => tag),
    byName: Object.fromEntries([
      ...sites.map(({ name, timeZone }) => [name, timeZone]),
      ...units.map(({ tag, site }) => [tag, site.timeZone]),
    ]) as Record<string, string>,
  };
}

function filterOf(
  { who, subject, name, action, from, to }: ChangesQuery,
  { timeZone, reader }: { timeZone: string; reader: Reader },
): ChangeFilter {
  const readable = CHANGE_SUBJECTS.filter((each) => reader.seesPeople || !PEOPLE_SUBJECTS.includes(each));
  return {
    subjects: subject === undefined ? readable : readable.filter((each) => each === subject),
    who,
    name,
    action,
    from: from === undefined ? undefined : startOfLocalDay(dayNumber(from), timeZone),
    to: to === undefined ? undefined : startOfLocalDay(dayNumber(to) + 1, timeZone),
  };
}
