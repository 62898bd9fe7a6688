import { AppError } from '@/lib/contract/app-error';
import type { FittingMapping, MappedColumn, MappingTask } from '@/lib/contract/column-guess';
import type { Mapping } from '@/lib/contract/mapping';
import { readColumnName } from '@/lib/ingest/column-name';
import { type ColumnSample, spreadOf } from '@/lib/ingest/guess/column-sample';
import { gatherSamples } from '@/lib/ingest/guess/gather-samples';
import { guessColumns } from '@/lib/ingest/guess/guess-columns';
import { type UnitTargets, unitTargets } from '@/lib/ingest/guess/unit-targets';
import { previewReadings, type ReadingPreview } from '@/lib/ingest/preview-readings';
import { sensorUnit } from '@/lib/ingest/sensor-unit';
import { StatusWords } from '@/lib/ingest/status-words';
import { listMappings, type StoredMapping } from '@/lib/store/entities/saved-mappings';
import { listUnits, type StoredUnit } from '@/lib/store/entities/units';
import type { Context } from './context';

/** Rows looked at for a guess: of files with a column per sensor, and of long files, where a row holds one value. */
const WIDE_ROWS = 1500;
const LONG_ROWS = 20_000;
/** Rows of a compressed file whose beginning holds no more. */
const FEW_ROWS = 50;
/** Names listed at most; the rest is counted. */
const MOST_COLUMNS = 2000;
const PLOT_POINTS = 48;
/** Digits kept of a plotted number: more cannot be seen. */
const PLOTTED_DIGITS = 4;

export type GuessRequest = {
  file: string;
  /** Opens the bytes anew. */
  open: () => AsyncIterable<Uint8Array>;
  mapping: Mapping | null;
  units: readonly StoredUnit[];
  saved: readonly StoredMapping[];
};

/** What a mapping has to say of a file, with guesses; null where its header says it all. */
export async function mappingTask(request: GuessRequest): Promise<MappingTask | null> {
  const head = await look(request, 1);
  if (head === null) return null;
  const isLong = head.format.kind === 'long';
  const sampled = await look(request, isLong ? LONG_ROWS : WIDE_ROWS);
  const { samples, taken, timeColumn } = gatherSamples(sampled ?? head, {
    knownTags: tagsOf(request),
    status: new StatusWords(request.mapping?.statusWords ?? []),
  });
  if (samples.length === 0) return null;
  const listed = samples.slice(0, MOST_COLUMNS);
  const targets = request.units.map(({ unit }) => unitTargets(unit));
  const guesses =
    head.format.kind === 'canonical'
      ? listed.map(() => null)
      : guessColumns({ titles: titlesOf(request.file, head), columns: listed, units: targets, taken });
  return {
    columns: listed.map((sample, i) => ({ ...columnOf(sample), guess: guesses[i] ?? null })),
    more: samples.length - listed.length,
    timeColumn,
    saved: fitting(samples, request.saved),
    designs: targets.map(designOf),
    conversions: conversionsOf(unitsWritten(listed, request.mapping)),
  };
}

/** The guesses a person could take without looking twice, as a mapping; the other names are skipped. */
export function mappingOfGuesses(task: MappingTask, least: number): Mapping {
  const sensors = Object.fromEntries(
    task.columns.map(({ name, guess }) => {
      if (guess === null || guess.confidence < least) return [name, null];
      const { tag, sensor, unit } = guess;
      return [name, { tag, sensor, unit }];
    }),
  );
  return task.timeColumn === null ? { sensors } : { timeColumn: task.timeColumn, sensors };
}

/** The file as its own header explains it; what a mapping says of rows and words above the readings holds. */
async function look(request: GuessRequest, rows: number): Promise<ReadingPreview | null> {
  const { open, mapping } = request;
  const unexplained = mapping === null ? null : { ...mapping, sensors: {} };
  const options = { knownTags: tagsOf(request), mapping: unexplained, timeZone: null };
  try {
    return await previewReadings(open(), options, rows);
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    // The beginning of a compressed file may hold fewer rows than were asked for.
    return rows > FEW_ROWS ? look(request, FEW_ROWS) : null;
  }
}

function tagsOf({ units }: Pick<GuessRequest, 'units'>): Set<string> {
  return new Set(units.map(({ tag }) => tag));
}

function titlesOf(file: string, { format }: ReadingPreview): string[] {
  return [file.replace(/(\.[a-z0-9]{1,5}){1,3}$/i, ''), ...(format.sheet === null ? [] : [format.sheet])];
}

function columnOf(sample: ColumnSample): Omit<MappedColumn, 'guess'> {
  const { name, description, unit, first, filled, numbers } = sample;
  const spread = spreadOf(numbers);
  return {
    name,
    description,
    writtenUnit: unit,
    first,
    filled,
    numbers: numbers.length,
    low: spread === null ? null : numbers.reduce((least, value) => Math.min(least, value)),
    middle: spread?.middle ?? null,
    high: spread === null ? null : numbers.reduce((most, value) => Math.max(most, value)),
    plot: plotOf(numbers),
  };
}

/** Some of the numbers, evenly apart. */
function plotOf(numbers: readonly number[]): number[] {
  const points = Math.min(PLOT_POINTS, numbers.length);
  return Array.from({ length: points }, (_, i) => {
    const at = points === 1 ? 0 : Math.round((i * (numbers.length - 1)) / (points - 1));
    return Number(numbers[at]!.toPrecision(PLOTTED_DIGITS));
  });
}

/** Saved mappings that explain names of the file, those that explain most of them first. */
function fitting(samples: readonly ColumnSample[], saved: readonly StoredMapping[]): FittingMapping[] {
  const names = samples.map(({ name }) => [name, name.trim(), readColumnName(name).name]);
  return saved
    .map(({ name, revision, mapping }) => {
      const keys = new Set(Object.keys(mapping.sensors));
      const met = names
        .map((forms) => forms.find((form) => keys.has(form)))
        .filter((key) => key !== undefined);
      return { name, revision, known: met.length, missing: keys.size - new Set(met).size };
    })
    .filter(({ known }) => known > 0)
    .sort((a, b) => b.known - a.known || a.missing - b.missing);
}

/** Units of measure that a person may choose, beside those that are written. */
const OFFERED_UNITS = [
  ...['Cel', '[degF]', 'K', 'kg/s', 'kg/h', 't/h', 'm3/h', 'L/s', 'L/min', '[gal_us]/min', '[lb_av]/h'],
  ...['kPa', 'bar', 'mbar', '[psi]'],
];

function unitsWritten(samples: readonly ColumnSample[], mapping: Mapping | null): Set<string> {
  const written = samples.flatMap(({ unit }) => (unit === null || unit === '' ? [] : [unit]));
  const mapped = Object.values(mapping?.sensors ?? {}).flatMap((sensor) => sensor?.unit ?? []);
  return new Set([...OFFERED_UNITS, ...written, ...mapped]);
}

const SAMPLE_SENSORS = { temperature: 'hotIn', flow: 'hotFlow', pressure: 'hotPressureDrop' } as const;

function conversionsOf(units: ReadonlySet<string>): MappingTask['conversions'] {
  return [...units].flatMap((unit) =>
    (['temperature', 'flow', 'pressure'] as const).flatMap((measured) => {
      const conversion = sensorUnit(SAMPLE_SENSORS[measured], unit);
      if (conversion === null) return [];
      const { factor, offset, basisBit } = conversion;
      const kind = measured !== 'flow' ? measured : basisBit === 0 ? 'massFlow' : 'volumeFlow';
      return [{ unit, kind, factor, offset } as const];
    }),
  );
}

function designOf({ tag, temperatures, flows }: UnitTargets): MappingTask['designs'][number] {
  return { tag, temperatures, flows };
}

/**
 * Guesses for a file on this machine, as the screen shows them; null where its header says it all.
 *
 * @throws AppError 'not-readable' for what is no readings file
 */
export async function guessMapping(
  { store }: Context,
  { file, open }: Pick<GuessRequest, 'file' | 'open'>,
): Promise<MappingTask | null> {
  const [units, saved] = await Promise.all([listUnits(store.entities), listMappings(store.entities)]);
  const options = { knownTags: tagsOf({ units }), mapping: null, timeZone: null };
  await previewReadings(open(), options, 1);
  return mappingTask({ file, open, mapping: null, units, saved });
}
