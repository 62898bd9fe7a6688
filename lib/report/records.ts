import type { Fault } from '@/lib/contract/app-error';
import type { CleanReferenceRecord, ReferenceMethod } from '@/lib/contract/clean-references';
import type { CleaningFileRecord } from '@/lib/contract/cleaning-files';
import type { CleaningChangeRecord } from '@/lib/contract/cleaning-request';
import type { FallAnswerRecord } from '@/lib/contract/fall-answers';
import type { Site, Unit } from '@/lib/contract/fleet-file';
import type { CleaningReason } from '@/lib/contract/plan';
import type { PlannedState } from '@/lib/contract/planned';
import type { UnitResult } from '@/lib/contract/results';
import type { VerdictRecord } from '@/lib/contract/verdicts';
import type { CheckSettings } from '@/lib/core/checks/check-settings';
import type { FilmVariant } from '@/lib/core/clean/film-variants';
import type { LearnedFactors } from '@/lib/core/clean/learn-factors';
import type { LearnedExponent } from '@/lib/core/clean/learn-pressure-exponent';
import type { Exchanger, Side } from '@/lib/core/exchange/exchanger';
import type { Basis } from '@/lib/core/fouling/evaluate-over';
import type { EvaluationColumns } from '@/lib/core/fouling/evaluation-columns';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import type { AcceptedPlan } from './plan/planning';
import type { ReferenceEntries } from './reference/reference-entries';

/** What the store holds, as plain data: the input of every view model. Instants are ms since 1970. */
export type SiteRecord = Site & { id: number };

export type UnitRecord = {
  id: number;
  tag: string;
  site: SiteRecord;
  /** The datasheet as given, in its own units of measure. */
  unit: Unit;
  /** The same in SI, as the core uses it. */
  exchanger: Exchanger;
  settings: CheckSettings;
  /** Number of the datasheet version and since when it holds. */
  version: number;
  versionSince: number;
};

export type CleaningRecord = {
  id: number;
  at: number;
  durationMs: number | null;
  method: string | null;
  cost: number | null;
  note: string | null;
  /** Grows with every correction: a correction of an older state is refused. */
  revision: number;
};

export type OutageRecord = {
  id: number;
  siteId: number;
  name: string;
  from: number;
  to: number;
  /** Hours of work that fit into it; null: as many as needed. */
  crewHours: number | null;
};

/** What a supply of a site costs and emits from a local day on [days since 1970-01-01]. */
export type SupplyRecord = {
  /** A later statement has a higher number. */
  id: number;
  siteId: number;
  supply: string;
  fromDay: number;
  /** Amount in the site's currency, per UCUM unit of energy bought. */
  price: { amount: number; per: string } | null;
  /** CO2e [kg] per UCUM unit of energy bought. */
  carbon: { kg: number; per: string } | null;
  givenBy: string | null;
  note: string | null;
  createdAt: number;
};

/** Dated work out of an accepted plan; money in the currency of the site. */
export type PlannedRecord = {
  id: number;
  planId: number;
  unitId: number;
  tag: string;
  site: string;
  /** Out of service from here to there [ms]. */
  from: number;
  to: number;
  outage: string | null;
  method: string | null;
  crewHours: number;
  cost: number;
  /** Loss over the rest of the plan that it avoids, as projected when it was accepted. */
  saves: number;
  reason: CleaningReason;
  /** The same in every calendar it is sent to; `revision` grows with every change. */
  calendarId: string;
  revision: number;
  state: PlannedState;
  /** Number of the cleaning that was recorded for it. */
  cleaningId: number | null;
  changedAt: number;
  changedBy: string | null;
  note: string | null;
};

/** A unit with everything the last analysis said of it; `trend` and `result` are null before the first. */
export type AnalysedUnit = {
  record: UnitRecord;
  trend: UnitTrend | null;
  result: UnitResult | null;
  daily: DailyColumns;
  cleanings: CleaningRecord[];
};

/** One version of the datasheet; it holds from its `validFrom` on, or corrects every earlier one. */
export type VersionRecord = { number: number; unit: Unit; savedAt: number };

/** What a stretch of the record was judged by; `reference` is null where the datasheet's own way holds. */
export type UnitBasis = Basis & { unitVersion: number; reference: number | null };

/** A clean reference worked out but not accepted, and what it would change; `effect` is null where there is no result yet. */
export type ProposedReference = {
  method: ReferenceMethod;
  /** Period it was learned from [ms]; null where none was. */
  period: { from: number; to: number } | null;
  from: number | null;
  unitVersion: number;
  learned: LearnedFactors;
  effect: { before: UnitTrend; after: UnitTrend; asOf: number } | null;
};

/** Input of the fleet page. `now` is what the page calls today: the newest reading of any site; `clock` is the real time. */
export type FleetRecords = {
  sites: SiteRecord[];
  units: AnalysedUnit[];
  outages: OutageRecord[];
  /** Prices and factors of all sites that are in force. */
  supplies: SupplyRecord[];
  /** Dated work that waits to be done, the earliest first. */
  planned: PlannedRecord[];
  /** The newest of each site, the newest first; one made without a site counts for all and ends the list. */
  acceptedPlans: AcceptedPlan[];
  now: number;
  clock: number;
  /** Units whose results are older than their readings, cleanings or datasheet. */
  due: number;
};

/** Input of the unit page: the unit, and its readings and their evaluation in the shown period. */
export type UnitRecords = AnalysedUnit & {
  outages: OutageRecord[];
  /** Dated work of the unit that waits to be done. */
  planned: PlannedRecord[];
  /** Its cleanings as they stood before people corrected or withdrew them, the oldest change first. */
  cleaningChanges: CleaningChangeRecord[];
  /** Photographs and reports kept with its cleanings. */
  files: CleaningFileRecord[];
  /** Prices and factors of the unit's site that are in force. */
  supplies: SupplyRecord[];
  /** What the results were made with, ascending, at least one. */
  bases: UnitBasis[];
  versions: VersionRecord[];
  references: CleanReferenceRecord[];
  /** What people said of readings, oldest first, those withdrawn among them. */
  verdicts: VerdictRecord[];
  /** What people said of falls of the fouling, oldest first. */
  fallAnswers: FallAnswerRecord[];
  readings: ReadingColumns;
  evaluation: EvaluationColumns;
  /** What readings of the clean unit say of the exponent of pressure drop on flow; null where they cannot tell. */
  pressureExponents: Record<Side, LearnedExponent | null>;
  /** What the page calls today: the newest reading of the site; `clock` is the real time. */
  now: number;
  clock: number;
  /** True where the results are older than the readings, cleanings or datasheet. */
  isDue: boolean;
};

/** What the last day's fouling resistance hangs on: the films with one assumption moved at a time. */
export type FilmSensitivity = {
  day: number;
  films: Exchanger['films'];
  /** Median of the day's accepted readings [m²·K/W]; null where none was accepted. */
  foulingResistance: number | null;
  /** Fouling at which the governing limit is reached [m²·K/W]; null without one. */
  allowance: number | null;
  rows: {
    name: FilmVariant['name'];
    step: number;
    /** The exponent or share it was moved to [-]. */
    value: number;
    foulingResistance: number | null;
  }[];
};

/** Input of the page of the clean reference: the unit, what was asked for, and what comes out of it. */
export type ReferenceRecords = UnitRecords & {
  sensitivity: FilmSensitivity | null;
  entries: ReferenceEntries;
  /** What is learned from where nobody says [ms]; null without readings. */
  usualPeriod: { from: number; to: number } | null;
  proposed: ProposedReference | null;
  faults: Fault[];
};
