import type { StoredTelling } from '@/lib/store/series/analysis-store';
import type { UnitOutcome, UnitTask } from './unit-task';

/** What a thread is told; it takes messages in their order. */
export type ToThread =
  | { kind: 'hear'; tellings: StoredTelling[] }
  | { kind: 'work'; id: number; tasks: UnitTask[] };

/** What it answers. */
export type FromThread = { id: number; outcomes: UnitOutcome[] } | { id: number; error: unknown };
