import type { SavedMapping } from '@/lib/contract/saved-mapping';
import { formatInstant } from '@/lib/report/format/time';
import { countOf } from '@/lib/report/format/words';

/** One file of a watched folder, as it was taken or refused last. */
type WatchedRecord = {
  folder: string;
  name: string;
  /** [ms] */
  takenAt: number;
  batchId: number | null;
  refusal: string | null;
};

export type IntakeRecords = {
  mappings: SavedMapping[];
  /** Newest first. */
  files: WatchedRecord[];
  /** [ms] */
  now: number;
};

export type SavedRow = {
  name: string;
  href: string;
  revision: number;
  columns: string;
  units: string;
  changed: string;
};

export type WatchedFolder = {
  folder: string;
  lastTaken: string;
  files: { name: string; at: string; outcome: string; href: string | null; isRefused: boolean }[];
};

export type IntakeView = { mappings: SavedRow[]; folders: WatchedFolder[] };

/** Files of a folder shown: the latest, and those that are refused as they stand. */
const SHOWN_FILES = 8;
const NAMED_UNITS = 4;

export function intakeView(
  { mappings, files }: IntakeRecords,
  { sites }: { sites: { timeZone: string }[] },
): IntakeView {
  const zones = new Set(sites.map(({ timeZone }) => timeZone));
  const zone = zones.size === 1 ? [...zones][0]! : 'UTC';
  return { mappings: mappings.map((saved) => savedRow(saved, zone)), folders: foldersOf(files, zone) };
}

function savedRow({ name, revision, changedAt, changedBy, mapping }: SavedMapping, zone: string): SavedRow {
  const sensors = Object.values(mapping.sensors);
  const read = sensors.filter((sensor) => sensor !== null);
  const tags = [...new Set(read.map(({ tag }) => tag))];
  const more = tags.length - NAMED_UNITS;
  return {
    name,
    href: `/import/mappings/${encodeURIComponent(name)}`,
    revision,
    columns: `${countOf(read.length, 'column')}, ${sensors.length - read.length} skipped`,
    units: tags.slice(0, NAMED_UNITS).join(', ') + (more > 0 ? ` and ${more} more` : ''),
    changed: `${formatInstant(Date.parse(changedAt), zone)} by ${changedBy}`,
  };
}

function foldersOf(files: readonly WatchedRecord[], zone: string): WatchedFolder[] {
  const folders = new Map<string, WatchedRecord[]>();
  for (const file of files) {
    const known = folders.get(file.folder) ?? [];
    // Newest first: an older state of the same file says nothing any more.
    if (!known.some(({ name }) => name === file.name)) folders.set(file.folder, [...known, file]);
  }
  return [...folders].map(([folder, latest]) => {
    const taken = latest.find(({ refusal }) => refusal === null);
    const refused = latest.filter(({ refusal }) => refusal !== null);
    const shown = [...refused, ...latest.filter(({ refusal }) => refusal === null)].slice(0, SHOWN_FILES);
    return {
      folder,
      lastTaken:
        taken === undefined
          ? 'nothing taken yet'
          : `last taken ${formatInstant(taken.takenAt, zone)} (${zone}): ${taken.name}`,
      files: shown.map(({ name, takenAt, batchId, refusal }) => ({
        name,
        at: formatInstant(takenAt, zone),
        outcome: refusal ?? (batchId === null ? 'taken' : `import ${batchId}`),
        href: batchId === null ? null : `/import?batch=${batchId}`,
        isRefused: refusal !== null,
      })),
    };
  });
}
