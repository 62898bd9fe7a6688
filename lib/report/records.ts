import type { Site, Unit } from '@/lib/contract/fleet-file';
import type { UnitResult } from '@/lib/contract/results';
import type { CheckSettings } from '@/lib/core/checks/check-settings';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import type { EvaluationColumns } from '@/lib/core/fouling/evaluation-columns';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';

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
};

export type OutageRecord = { id: number; siteId: number; name: string; from: number; to: number };

/** A unit with everything the last analysis said of it; `trend` and `result` are null before the first. */
export type AnalysedUnit = {
  record: UnitRecord;
  trend: UnitTrend | null;
  result: UnitResult | null;
  daily: DailyColumns;
  cleanings: CleaningRecord[];
};

/** Input of the fleet page. `now` is what the page calls today: the newest reading of any site; `clock` is the real time. */
export type FleetRecords = {
  sites: SiteRecord[];
  units: AnalysedUnit[];
  outages: OutageRecord[];
  now: number;
  clock: number;
  /** Units whose results are older than their readings, cleanings or datasheet. */
  due: number;
};

/** Input of the unit page: the unit, and its readings and their evaluation in the shown period. */
export type UnitRecords = AnalysedUnit & {
  outages: OutageRecord[];
  readings: ReadingColumns;
  evaluation: EvaluationColumns;
  /** What the page calls today: the newest reading of the site; `clock` is the real time. */
  now: number;
  clock: number;
  /** True where the results are older than the readings, cleanings or datasheet. */
  isDue: boolean;
};
