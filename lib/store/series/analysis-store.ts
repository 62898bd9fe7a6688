import type { CleanReferenceRecord } from '@/lib/contract/clean-references';
import type { DailyBlock } from './daily-block';

/** A unit due since here [ms] was worked out from all that is its own: it is to hear what the rest of the fleet says. */
export const TO_BE_TOLD = Number.MAX_SAFE_INTEGER;

/** A unit due since here [ms] has the same readings as before: only what its results are worth has changed. */
export const NO_READING = TO_BE_TOLD - 1;

/** Holder of units that could not be worked out: nobody waits for them until their time is over. */
export const SET_ASIDE = 'set aside';

/** `own`: something of the unit itself has changed; `told`: it is to hear what the rest of the fleet now says. */
export type Phase = 'own' | 'told';

export type Taking = {
  /** Name of the process that takes them, different from that of any other. */
  worker: string;
  phase: Phase;
  most: number;
  /** How long they are held from now on [ms]. */
  leaseMs: number;
  /** Only units among these, and only these are waited for; null: all. */
  of: readonly number[] | null;
};

/** A unit held for analysis: since when it is due [ms], and the mark under which it is. */
export type TakenUnit = { unitId: number; since: number; mark: string };

/** What tells whether a unit's results are those of today. */
export type UnitStanding = {
  unitId: number;
  tag: string;
  siteId: number;
  /** Number of the newest datasheet. */
  version: number;
  /** Newest reading [ms]; null without any. */
  newest: number | null;
  /** What the results were made with; null without any. */
  known: { asOf: number | null; methodVersion: number; unitVersion: number; hasBasis: boolean } | null;
  isDue: boolean;
};

/** What a unit says to the others, as JSON. */
export type StoredTelling = { unitId: number; asOf: number | null; methodVersion: number; telling: string };

/** What the last analysis said of a unit, as it is stored. */
export type KnownResult = {
  unitId: number;
  /** Instant it was made as of [ms]; null where there was no reading. */
  asOf: number | null;
  methodVersion: number;
  unitVersion: number;
  nominal: number;
  basis: string;
  trend: string;
};

/** A unit worked out: everything that is written of it. Texts are JSON. */
export type AnalysedUnit = {
  unitId: number;
  /** The mark that stood when it was taken; a newer one stays due. */
  mark: string;
  /** What it is due for afterwards: to be told of the others, nothing, or what it was due for before. */
  after: 'told' | 'done' | 'as-before';
  /** Null where nothing is written: it was told already. */
  written: WrittenResult | null;
};

export type WrittenResult = {
  /** [ms] */
  asOf: number | null;
  computedAt: number;
  methodVersion: number;
  unitVersion: number;
  nominal: number;
  basis: string;
  result: string;
  trend: string;
  telling: string;
  summary: string | null;
  /** Blocks of the days from a month on, which take the place of all kept from there on; null where they stand. */
  daily: { fromMonth: number; blocks: DailyBlock[] } | null;
  statement: DayStatement;
  /** A clean reference worked out on the way. */
  reference: CleanReferenceRecord | null;
};

/** What is said of a unit on a local day; `isBehind`: its readings already reached beyond that day. */
export type DayStatement = { day: number; isBehind: boolean; statement: object };

/** What a fleet-wide analysis reads and writes in bulk, and who holds which unit meanwhile. */
export type AnalysisStore = {
  /** Takes due units that nobody holds, by number; for `told` only when none is left, held or not, that changed itself. */
  takeDue(taking: Taking): Promise<TakenUnit[]>;
  /** Goes on holding everything a process holds, for so long from now on [ms]. */
  holdOn(worker: string, leaseMs: number): Promise<void>;
  /** Lets go what a process holds: it stays due. */
  letGo(worker: string): Promise<void>;
  /** Who holds units, whether or not its lease is over. */
  workers(): Promise<string[]>;
  /** Holds units back that could not be worked out [ms]. */
  setAside(worker: string, unitIds: readonly number[], forMs: number): Promise<void>;
  /** How many units are due, those held among them and those set aside not. */
  dueCounts(of: readonly number[] | null): Promise<Record<Phase, number>>;
  /** Every unit, by number. */
  standings(): Promise<UnitStanding[]>;
  /** By number of the unit; results of before it was kept say nothing. */
  tellings(): Promise<StoredTelling[]>;
  /** Grows whenever something is written that a unit tells the others. */
  tellingsRevision(): Promise<number>;
  knownResults(unitIds: readonly number[]): Promise<Map<number, KnownResult>>;
  /** Writes all of it or nothing, and lets the units go; a unit that the process no longer holds is left out. */
  saveAnalysed(worker: string, units: readonly AnalysedUnit[]): Promise<void>;
};
