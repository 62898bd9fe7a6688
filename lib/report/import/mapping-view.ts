import type { MappedColumn, MappingTask } from '@/lib/contract/column-guess';
import type { SavedMapping } from '@/lib/contract/saved-mapping';
import { formatInstant } from '@/lib/report/format/time';

export type MappingRecords = { saved: SavedMapping; tags: string[]; timeZones: string[] };

export type MappingView = { saved: SavedMapping; changed: string; task: MappingTask; tags: string[] };

/** A saved mapping as the screen of columns shows it: names without values and without guesses. */
export function mappingView({ saved, tags, timeZones }: MappingRecords): MappingView {
  const zones = new Set(timeZones);
  const zone = zones.size === 1 ? [...zones][0]! : 'UTC';
  const { changedAt, changedBy, revision, mapping } = saved;
  return {
    saved,
    changed: `Changed ${formatInstant(Date.parse(changedAt), zone)} (${zone}) by ${changedBy}; revision ${revision}.`,
    tags,
    task: {
      columns: Object.keys(mapping.sensors).map(nameOnly),
      more: 0,
      timeColumn: null,
      saved: [],
      conversions: [],
      designs: [],
    },
  };
}

function nameOnly(name: string): MappedColumn {
  const nothing = { low: null, middle: null, high: null, guess: null };
  return { name, description: '', writtenUnit: null, first: [], filled: 0, numbers: 0, plot: [], ...nothing };
}
