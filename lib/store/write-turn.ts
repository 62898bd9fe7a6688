const TURNS = Symbol.for('cleanby.writeTurns');
type Holder = { [TURNS]?: Map<string, Promise<void>> };

/** Ends a turn; a second call does nothing. */
export type EndTurn = () => void;

/**
 * Waits until nobody else in this process writes to a database, and takes the turn. SQLite lets one connection write; one
 * that waits inside SQLite stops the whole process, the writer it waits for among it, so we wait outside of it.
 */
export async function takeTurn(path: string): Promise<EndTurn> {
  // The development server loads modules anew at every change; the line of those who wait must survive that.
  const holder = globalThis as Holder;
  holder[TURNS] ??= new Map();
  const before = holder[TURNS].get(path) ?? Promise.resolve();
  let end: EndTurn = () => {};
  const own = new Promise<void>((resolve) => {
    end = resolve;
  });
  holder[TURNS].set(
    path,
    before.then(() => own),
  );
  await before;
  return end;
}

/** Does something while nobody else in this process writes to the file. */
export async function inTurn<T>(path: string, act: () => T | Promise<T>): Promise<T> {
  const end = await takeTurn(path);
  try {
    return await act();
  } finally {
    end();
  }
}

/** How long SQLite itself may wait for another process, with this one standing still [ms]. */
export const SHORT_WAIT_MS = 20;
/** How long we wait for another process that writes, and how often we ask [ms]. */
export const LONGEST_WAIT_MS = 120_000;
const PAUSE_MS = 25;

/** How long Prisma waits for a transaction to begin, and how long one may take [ms]. */
export const TRANSACTION_OPTIONS = { maxWait: LONGEST_WAIT_MS, timeout: LONGEST_WAIT_MS };

/** Begins to write as soon as no other process does: what SQLite refuses as busy has done nothing yet and is tried again. */
export async function onceFree<T>(begin: () => T | Promise<T>, clock = performance): Promise<T> {
  const until = clock.now() + LONGEST_WAIT_MS;
  for (;;) {
    try {
      return await begin();
    } catch (error) {
      if (!isBusy(error) || clock.now() > until) throw error;
      await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
    }
  }
}

/** SQLite's own error, or the same as the adapter wraps it. */
function isBusy(error: unknown): boolean {
  if (error === null || typeof error !== 'object') return false;
  const { code, cause } = error as { code?: unknown; cause?: { originalCode?: unknown } };
  return [code, cause?.originalCode].some((own) => typeof own === 'string' && own.startsWith('SQLITE_BUSY'));
}
