import { AppError } from '@/lib/contract/app-error';
import { listSites, type StoredSite } from '@/lib/store/entities/units';
import type { Context } from './context';

/** @throws AppError 'not-found' for an unknown name, with those that there are */
export async function knownSite(context: Context, name: string): Promise<StoredSite> {
  const sites = await listSites(context.store.entities);
  const site = sites.find((each) => each.name === name);
  if (site !== undefined) return site;
  const names = sites.map((each) => `"${each.name}"`).join(', ');
  throw new AppError('not-found', `There is no site "${name}"${names === '' ? '' : `; there are ${names}`}`);
}
