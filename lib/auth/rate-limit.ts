/** How a limit stands after a request was counted. */
export type Standing = {
  name: string;
  /** Requests that may come at once, and the window in which as many come again [s]. */
  quota: number;
  window: number;
  remaining: number;
  /** When all of them are there again, and when the next one is, where none is left now [s]. */
  reset: number;
  retryAfter: number | null;
};

type Settings = { name: string; quota: number; windowMs: number; mostKeys: number };

/**
 * So many requests in a window for each key, refilled evenly: of a key only one instant is kept, the one at which everything it took
 * is made up for. Keys are forgotten once that has passed, and the longest unseen ones where there are too many.
 */
export class RateLimit {
  readonly #settings: Settings;
  /** In the order of their last request. */
  readonly #madeUpAt = new Map<string, number>();

  constructor(settings: Settings) {
    this.#settings = settings;
  }

  /** Counts a request at an instant [ms]; one that is refused costs nothing. */
  take(key: string, now: number): Standing {
    const { quota, windowMs } = this.#settings;
    const each = windowMs / quota;
    const owed = Math.max(0, (this.#madeUpAt.get(key) ?? now) - now);
    const isRefused = owed + each > windowMs;
    const after = isRefused ? owed : owed + each;
    this.#keep(key, now + after, now);
    return this.#standing(after, isRefused ? (owed + each - windowMs) / 1000 : null);
  }

  get size(): number {
    return this.#madeUpAt.size;
  }

  #standing(owed: number, retryAfter: number | null): Standing {
    const { name, quota, windowMs } = this.#settings;
    // Sums of equal parts of the window miss whole numbers by rounding.
    const remaining = retryAfter === null ? Math.floor(((windowMs - owed) / windowMs) * quota + 1e-6) : 0;
    return { name, quota, window: windowMs / 1000, remaining, reset: owed / 1000, retryAfter };
  }

  #keep(key: string, madeUpAt: number, now: number): void {
    this.#madeUpAt.delete(key);
    this.#madeUpAt.set(key, madeUpAt);
    for (const [oldest, at] of this.#madeUpAt) {
      if (at > now && this.#madeUpAt.size <= this.#settings.mostKeys) return;
      if (oldest === key) return;
      this.#madeUpAt.delete(oldest);
    }
  }
}
