import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';

export type BatchRecord = {
  id: number;
  source: string;
  /** [ms] */
  createdAt: number;
  read: number;
  added: number;
  replaced: number;
  unchanged: number;
  setAside: number;
  /** When it was undone [ms]; null while it stands. */
  undoneAt: number | null;
};

export type SetAsideRecord = {
  line: number;
  text: string;
  reason: string;
  field: string | null;
  message: string;
};

/** One unit a batch changed, with what the last analysis said of it. */
export type ChangedUnit = {
  tag: string;
  service: string | null;
  timeZone: string;
  asOf: number | null;
  trend: UnitTrend | null;
};

/** Everything the import page shows, as plain data. */
export type ImportRecords = {
  sites: { name: string; timeZone: string }[];
  tags: string[];
  timeZones: string[];
  batches: BatchRecord[];
  /** The batch of the address; null without one, or where there is no such batch. */
  batch: {
    record: BatchRecord;
    reasons: { reason: string; count: number }[];
    rows: SetAsideRecord[];
    units: ChangedUnit[];
  } | null;
};
