import type { ShownSite } from '@/lib/report/shown-site';
import { listSites } from '@/lib/store/entities/units';
import type { Context } from './context';

/** Above so many units pages of whole results show one site at a time: thousands of results do not fit into a server's memory. */
const MOST_AT_ONCE = 1_000;

/** The site that a page of whole results shows: the one asked for, or of a large fleet the first in its order. */
export async function siteToShow({ store }: Context, asked: string | null): Promise<ShownSite> {
  const { entities } = store;
  const [units, found] = await Promise.all([entities.unit.count(), listSites(entities)]);
  const sites = found.map(({ name }) => name);
  const isOneOnly = units > MOST_AT_ONCE && sites.length > 1;
  return { site: asked ?? (isOneOnly ? sites[0]! : null), isOneOnly, sites };
}

/** Numbers of no site, for a name that none has: nothing is read then. */
const NO_SITE = -1;

/** What to read for a site by its name; null reads all. */
export async function siteRequest({ store }: Context, site: string | null): Promise<{ siteId?: number }> {
  if (site === null) return {};
  const sites = await listSites(store.entities);
  return { siteId: sites.find(({ name }) => name === site)?.id ?? NO_SITE };
}
