import type { Fault } from '@/lib/contract/app-error';
import type { HeaderRow } from '@/lib/contract/import-preview';
import type { Mapping } from '@/lib/contract/mapping';
import type { Sensor } from '@/lib/core/exchange/exchanger';
import type { FoundTimes } from './found-times';
import type { Delimiter } from './read-cells';
import type { Encoding } from './text-encoding';

export type ReadingOptions = {
  /** Tags of the registered units; rows of others are set aside. */
  knownTags: ReadonlySet<string>;
  mapping: Mapping | null;
  /** Zone of times without offset; null where neither this nor the mapping names one. */
  timeZone: string | null;
};

/**
 * - `canonical`: one row per unit and time, a column per sensor
 * - `long`: one row per sensor and time
 * - `plant-wide`: one row per time, a column per unit and sensor
 */
export type FileKind = 'canonical' | 'long' | 'plant-wide';

/** What a column holds; `unknown` needs a place in the mapping before the file can be read. */
export type ColumnUse =
  | 'tag'
  | 'time'
  | 'date'
  | 'sensor'
  | 'value'
  | 'unit'
  | 'reading'
  | 'ignored'
  | 'unknown';

export type ReadingColumn = {
  /** As written in the header. */
  name: string;
  use: ColumnUse;
  tag: string | null;
  sensor: Sensor | null;
  /** Unit of measure as written. */
  unit: string | null;
  /** What rows of descriptions beside the names say of it. */
  description?: string;
};

/** What rows are written in: text whose cells a delimiter keeps apart, a sheet of a workbook, a JSON document per line. */
export type Container = 'text' | 'workbook' | 'json-lines';

/** How a file is written, as found from its beginning. Delimiter and encoding say nothing of a workbook. */
export type ReadingFormat = {
  kind: FileKind;
  container: Container;
  /** The sheet that is read, of a workbook. */
  sheet: string | null;
  /** The rows above the readings, with what each is for; none in JSON lines. */
  headerRows: HeaderRow[];
  delimiter: Delimiter;
  decimalComma: boolean;
  encoding: Encoding;
  compressed: boolean;
  columns: ReadingColumn[];
  times: FoundTimes;
};

/** The columns of a file, and what stands in the way of reading them. */
export type Layout = { kind: FileKind; columns: ReadingColumn[]; faults: Fault[] };
