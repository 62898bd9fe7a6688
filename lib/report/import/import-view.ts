import type { State } from '@/lib/contract/results';
import { judgementOf } from '@/lib/report/fleet/unit-summary';
import { cleanByInWords } from '@/lib/report/fleet-words';
import { formatInstant } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf } from '@/lib/report/format/words';
import { unitPath } from '@/lib/report/unit/unit-address';
import { localDay } from '@/lib/time/local-clock';
import { inWords, statusInWords, whole } from './count-words';
import type { ImportAddress } from './import-address';
import type { BatchRecord, ChangedUnit, ImportRecords, SetAsideRecord } from './import-records';
import { setAsideInWords } from './set-aside-words';
import { canonicalTemplate } from './template';

export type ChangedUnitView = {
  tag: string;
  service: string;
  href: string;
  state: State | null;
  cleanBy: string;
  detail: string;
};

export type ReportView = {
  batch: number;
  title: string;
  sentence: string;
  takesBack: string;
  canUndo: boolean;
  isAnalysed: boolean;
  units: ChangedUnitView[];
  moreUnits: number;
  /** Cells that held a status word, in words; null where there were none. */
  status: string | null;
  reasons: { reason: string; count: string; remedy: string }[];
  rows: SetAsideRecord[];
  rowsShown: string;
  csvHref: string;
  /** Where the values are that it replaced; null where it replaced none. */
  replacedHref: string | null;
};

export type BatchRow = {
  id: number;
  href: string;
  source: string;
  at: string;
  counts: [read: string, added: string, replaced: string, unchanged: string, setAside: string];
  takesBack: string;
  canUndo: boolean;
  /** In words, where it was undone. */
  undone: string | null;
};

export type ImportView = {
  hasUnits: boolean;
  tags: string[];
  system: UnitSystem;
  /** The zone to begin with: that of the only site, else none. */
  timeZone: string;
  siteZones: string[];
  timeZones: string[];
  template: { header: string; example: string; csv: string };
  report: ReportView | null;
  undone: string | null;
  batches: BatchRow[];
  batchesZone: string;
};

/** Everything the import page shows at first; what a chosen file adds is in `previewView`. */
export function importView(records: ImportRecords, address: ImportAddress, system: UnitSystem): ImportView {
  const siteZones = [...new Set(records.sites.map(({ timeZone }) => timeZone))];
  const zone = siteZones.length === 1 ? siteZones[0]! : 'UTC';
  return {
    hasUnits: records.tags.length > 0,
    tags: records.tags,
    system,
    timeZone: siteZones.length === 1 ? siteZones[0]! : '',
    siteZones,
    timeZones: records.timeZones,
    template: canonicalTemplate(system, records.tags[0] ?? 'E-101'),
    report: records.batch === null ? null : reportView(records.batch, address, zone),
    undone: address.undone === null ? null : undoneInWords(address.undone),
    batches: records.batches.map((batch) => batchRow(batch, zone)),
    batchesZone: zone,
  };
}

function undoneInWords({ batch, removed, restored }: NonNullable<ImportAddress['undone']>): string {
  if (removed === 0 && restored === 0) {
    return `Import ${batch} had nothing left to take back: it was undone before, or later imports replaced all of it.`;
  }
  const back = restored === 0 ? '' : `, ${countOf(restored, 'earlier value')} put back`;
  return `Import ${batch} is undone: ${readings(removed)} removed${back}. Results are up to date.`;
}

function reportView(
  batch: NonNullable<ImportRecords['batch']>,
  address: ImportAddress,
  zone: string,
): ReportView {
  const { record, rows } = batch;
  return {
    batch: record.id,
    title: `Import ${record.id}: ${record.source}`,
    sentence: `${inWords(record)} Taken ${formatInstant(record.createdAt, zone)} (${zone}).`,
    takesBack: takesBack(record),
    canUndo: record.undoneAt === null && record.added + record.replaced > 0,
    isAnalysed: address.isAnalysed,
    status: address.statusCells === null ? null : statusInWords(address.statusCells),
    units: batch.units.map(changedUnit),
    moreUnits: Math.max(0, address.changedCount - batch.units.length),
    reasons: batch.reasons.map(({ reason, count }) => {
      const words = setAsideInWords(reason);
      return { ...words, count: whole(count) };
    }),
    rows,
    rowsShown:
      rows.length < record.setAside
        ? `The first ${whole(rows.length)} of ${whole(record.setAside)} rows`
        : '',
    csvHref: `/api/v1/imports/${record.id}/set-aside?format=csv`,
    replacedHref: record.replaced > 0 ? `/import/${record.id}/replaced` : null,
  };
}

function changedUnit({ tag, service, timeZone, asOf, trend }: ChangedUnit): ChangedUnitView {
  const today = asOf === null ? 0 : localDay(asOf, timeZone);
  const last = trend?.lastReading ?? null;
  const lastDay = last === null ? null : localDay(last, timeZone);
  const { main, detail, isProjected } = cleanByInWords(trend === null ? null : judgementOf(trend), {
    today,
    lastDay,
  });
  return {
    tag,
    service: service ?? '',
    href: unitPath(tag),
    state: trend?.state ?? null,
    cleanBy: isProjected ? `${main}, projected` : main,
    detail,
  };
}

function batchRow(record: BatchRecord, zone: string): BatchRow {
  const { id, source, createdAt, read, added, replaced, unchanged, setAside, undoneAt } = record;
  return {
    id,
    href: `/import?batch=${id}`,
    source,
    at: formatInstant(createdAt, zone),
    counts: [whole(read), whole(added), whole(replaced), whole(unchanged), whole(setAside)],
    takesBack: takesBack(record),
    canUndo: undoneAt === null && added + replaced > 0,
    undone: undoneAt === null ? null : `undone ${formatInstant(undoneAt, zone)}`,
  };
}

function takesBack({ added, replaced }: BatchRecord): string {
  const parts = [
    added > 0 ? `removes the ${readings(added)} it added` : '',
    replaced > 0 ? `puts back the ${readings(replaced)} it replaced` : '',
  ].filter((part) => part !== '');
  return `This ${parts.join(' and ')}. What later imports changed since stays as they left it.`;
}

function readings(count: number): string {
  return `${whole(count)} ${count === 1 ? 'reading' : 'readings'}`;
}
