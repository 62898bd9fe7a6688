import type { Verdicts } from '@/lib/contract/verdicts';
import { listVerdicts } from '@/lib/store/entities/verdicts';
import { isoInZone } from '@/lib/time/local-day';
import type { Context } from './context';
import { knownUnit } from './known-unit';
import { withdrawnInZone } from './withdrawn-in-zone';

/** Every verdict a unit ever had, in instants of its site. @throws AppError 'not-found' for an unknown tag */
export async function showVerdicts(context: Context, tag: string): Promise<Verdicts> {
  const { id, site } = await knownUnit(context, tag);
  const verdicts = await listVerdicts(context.store.entities, id);
  const iso = (at: number) => isoInZone(at, site.timeZone);
  return {
    tag,
    verdicts: verdicts.map(({ from, to, givenAt, withdrawn, ...rest }) => ({
      ...rest,
      from: iso(from),
      to: iso(to),
      givenAt: iso(givenAt),
      withdrawn: withdrawnInZone(withdrawn, site.timeZone),
    })),
  };
}
