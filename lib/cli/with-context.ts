import { type Context, closeContext, openContext } from '@/lib/work/context';

/** Runs one verb against the database and closes it again. */
export async function withContext<T>(work: (context: Context) => Promise<T>): Promise<T> {
  const context = await openContext();
  try {
    return await work(context);
  } finally {
    await closeContext(context);
  }
}
