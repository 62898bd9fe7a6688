import type { MappingRecords } from '@/lib/report/import/mapping-view';
import { findMapping } from '@/lib/store/entities/saved-mappings';
import { listSites, unitIds } from '@/lib/store/entities/units';
import type { Context } from './context';
import { savedMapping } from './saved-mappings';

/** A saved mapping with what its page offers; null where there is none of that name. */
export async function readMapping(context: Context, name: string): Promise<MappingRecords | null> {
  const { entities } = context.store;
  if ((await findMapping(entities, name)) === null) return null;
  const [saved, ids, sites] = await Promise.all([
    savedMapping(context, name),
    unitIds(entities),
    listSites(entities),
  ]);
  const tags = [...ids.keys()].sort((a, b) => a.localeCompare(b, 'en'));
  return { saved, tags, timeZones: sites.map(({ timeZone }) => timeZone) };
}
