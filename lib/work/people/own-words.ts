import { listSites } from '@/lib/store/entities/units';
import type { Context } from '../context';

/** Words that nobody may make a password of: who it is for, and what the plant is called. */
export async function ownWords(
  { store }: Context,
  { name, email }: { name: string; email: string },
): Promise<string[]> {
  const sites = await listSites(store.entities);
  return [name, email, ...sites.map((site) => site.name)];
}
