import { type Actor, LOCAL_ACTOR } from '@/lib/contract/actor';
import { DEFAULT_DATABASE_URL } from '@/lib/store/database-path';
import { openStore, type SchemaChange, type Store } from '@/lib/store/open-store';
import type { Computer } from './analysis/unit-task';
import { log } from './log';

/** What every verb works with: the open database, a clock, and who does it. */
export type Context = {
  store: Store;
  now: () => number;
  actor: Actor;
  /** Who works out so many units, where it is not to be this thread alone. */
  computer?: (units: number) => Promise<Computer>;
};

const OPEN = Symbol.for('cleanby.contexts');
type Holder = { [OPEN]?: Map<string, Promise<Context>> };

/**
 * The context of a database, opened once per process and shared by all its requests.
 *
 * @throws AppError 'database-unusable'
 */
export function openContext(
  databaseUrl = process.env.DATABASE_URL ?? DEFAULT_DATABASE_URL,
): Promise<Context> {
  // The development server loads modules anew at every change; the connections must survive that.
  const holder = globalThis as Holder;
  holder[OPEN] ??= new Map();
  const open = holder[OPEN].get(databaseUrl);
  if (open !== undefined) return open;
  const opening = openStore(databaseUrl, logMigrated).then((store) => ({
    store,
    now: clock,
    actor: LOCAL_ACTOR,
  }));
  holder[OPEN].set(databaseUrl, opening);
  opening.catch(() => holder[OPEN]?.delete(databaseUrl));
  return opening;
}

function logMigrated({ applied, safetyCopy }: SchemaChange): void {
  if (safetyCopy === null) log.info({ applied }, 'the schema of the database is up to date');
  else
    log.warn(
      { applied, safetyCopy },
      'the schema is up to date; the data as they were before are kept in safetyCopy',
    );
}

/** The same database, with somebody else at work. */
export function actingAs(context: Context, actor: Actor): Context {
  return { ...context, actor };
}

/** The clock, or the fixed instant of CLEANBY_NOW, which keeps pictures and tests the same on every day. */
function clock(): number {
  const fixed = process.env.CLEANBY_NOW;
  return fixed === undefined ? Date.now() : Date.parse(fixed);
}

/** Closes a context opened for one command or test. */
export async function closeContext(context: Context): Promise<void> {
  const contexts = (globalThis as Holder)[OPEN];
  for (const [url, open] of contexts ?? []) {
    if ((await open).store === context.store) contexts?.delete(url);
  }
  await context.store.close();
}

/** Closes every database this process has open: the last one out writes the journal into the file. */
export async function closeAllContexts(): Promise<void> {
  const contexts = (globalThis as Holder)[OPEN] ?? new Map<string, Promise<Context>>();
  const open = [...contexts.values()];
  contexts.clear();
  for (const context of await Promise.allSettled(open)) {
    if (context.status === 'fulfilled') await context.value.store.close();
  }
}
