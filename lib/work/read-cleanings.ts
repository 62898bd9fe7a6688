import type { Cleanings } from '@/lib/contract/cleaning-request';
import { listCleaningChanges } from '@/lib/store/entities/cleanings';
import { listCleanings } from '@/lib/store/entities/events';
import { isoInZone } from '@/lib/time/local-day';
import type { Context } from './context';
import { knownUnit } from './known-unit';

const MS_PER_SECOND = 1000;

/** The recorded cleanings of a unit and what changed about them. @throws AppError 'not-found' for an unknown tag */
export async function showCleanings(context: Context, tag: string): Promise<Cleanings> {
  const { id, site } = await knownUnit(context, tag);
  const { entities } = context.store;
  const [cleanings, changes] = await Promise.all([
    listCleanings(entities, id),
    listCleaningChanges(entities, id),
  ]);
  const iso = (at: number) => isoInZone(at, site.timeZone);
  const shown = <Row extends { at: number; durationMs: number | null }>({
    at,
    durationMs,
    ...rest
  }: Row) => ({
    ...rest,
    at: iso(at),
    duration: durationMs === null ? null : durationMs / MS_PER_SECOND,
  });
  return {
    tag,
    cleanings: cleanings.map(shown),
    changes: changes.map(({ changedAt, ...rest }) => ({ ...shown(rest), changedAt: iso(changedAt) })),
  };
}
