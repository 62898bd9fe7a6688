import type { SupplyRecord } from '@/lib/report/records';
import type { UnitDossier } from '@/lib/store/entities/dossiers';
import type { AnalysedUnit, Phase, StoredTelling, TakenUnit } from '@/lib/store/series/analysis-store';
import type { ReadingSpan } from '@/lib/store/series/series-store';

/** One unit to be worked out: plain data, as it is handed to a thread. */
export type UnitTask = {
  taken: TakenUnit;
  phase: Phase;
  dossier: UnitDossier;
  /** What energy costs at its site. */
  supplies: SupplyRecord[];
  /** First and last reading; null without any. */
  ends: ReadingSpan | null;
  /** "Today" [ms]: readings up to and including it are used; null without any reading at the site. */
  asOf: number | null;
  /** True where `asOf` was asked for and lies in the past: then readings at that instant itself are not used. */
  isPast: boolean;
  /** Clock [ms]. */
  now: number;
};

/** What became of a task: what is to be written, or the error that ended it. */
export type UnitOutcome = { unitId: number; analysed: AnalysedUnit } | { unitId: number; error: unknown };

/** Works units out, in this process or in threads of it; nothing is written. */
export type Computer = {
  /** Batches that are best under way at once, so that it never waits for the database. */
  lanes: number;
  /** What units say to each other from now on. */
  hear: (tellings: StoredTelling[]) => void;
  /** Outcomes of tasks in any order; those not begun when the signal comes are left out. */
  workOut: (tasks: UnitTask[], signal?: AbortSignal) => Promise<UnitOutcome[]>;
  close: () => Promise<void>;
};
