import type { MarkRecord, ReviewQuery, StatementRecord } from '@/lib/contract/review';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { CleaningRecord, SiteRecord } from '../records';

/** A unit with what was said of it then and what is said now. Instants are ms since 1970. */
export type ReviewedUnit = {
  id: number;
  tag: string;
  service: string | null;
  site: SiteRecord;
  before: StatementRecord;
  now: StatementRecord;
  cleanings: CleaningRecord[];
  trend: UnitTrend;
  /** Newest reading of any kind; null without any. */
  lastReceived: number | null;
};

/** Input of the review. */
export type ReviewRecords = {
  query: ReviewQuery;
  sinceDay: number;
  /** Newest day with a reading at the sites looked at; null without any. */
  today: number | null;
  sites: SiteRecord[];
  units: ReviewedUnit[];
  /** Units without any result yet. */
  notAnalysed: string[];
  /** Marks made since that day, oldest first: one made before it cannot be about a change after it. */
  marks: MarkRecord[];
  clock: number;
  /** Units whose results are older than their readings, cleanings or datasheet. */
  due: number;
};
