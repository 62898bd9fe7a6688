import { addressed } from '@/lib/work/back-up';
import { type Context, closeContext, openContext } from '@/lib/work/context';

/** Runs one verb against the database and closes it again. */
export async function withContext<T>(work: (context: Context) => Promise<T>): Promise<T> {
  const context = await openContext();
  try {
    return await work({ ...context, computer: threadsFor(context) });
  } finally {
    await closeContext(context);
  }
}

/** Read when it is needed: most verbs analyse nothing. */
function threadsFor({ store }: Context): Context['computer'] {
  return async (units) => {
    const { computerFor, usualThreads } = await import('@/lib/work/analysis/threads');
    return computerFor(store.series, { databaseUrl: addressed(), threads: usualThreads() })(units);
  };
}
