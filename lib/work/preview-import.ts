import { AppError, type Fault } from '@/lib/contract/app-error';
import type { ImportPreview } from '@/lib/contract/import-preview';
import type { SetAsideRow } from '@/lib/contract/import-report';
import type { Mapping } from '@/lib/contract/mapping';
import { previewReadings, type ReadingPreview } from '@/lib/ingest/preview-readings';
import { readReadings } from '@/lib/ingest/read-readings';
import type { ReadingChunk } from '@/lib/ingest/reading-chunk';
import type { ReadingOptions } from '@/lib/ingest/reading-format';
import { listMappings } from '@/lib/store/entities/saved-mappings';
import { listUnits } from '@/lib/store/entities/units';
import type { Context } from './context';
import { mappingTask } from './guess-mapping';
import { PlotSample } from './plot-sample';

/** The beginning of a file a preview looks at [bytes]: some 20,000 canonical rows. */
export const PREVIEW_BYTES = 2 ** 21;
/** A workbook is looked at as a whole, as its sheets are found from its end [bytes]. */
export const PREVIEW_WORKBOOK_BYTES = 2 ** 25;
/** Rows kept aside that a preview shows; their number is counted to the end. */
const SHOWN_SET_ASIDE = 50;
const SHOWN_ROWS = 8;

export type PreviewRequest = {
  name: string;
  source: AsyncIterable<Uint8Array>;
  mapping: Mapping | null;
  timeZone: string | null;
  /** True where `source` is only the beginning of the file. */
  isCut: boolean;
};

/**
 * Looks at the beginning of a readings file as it would be read, and stores nothing.
 *
 * @throws AppError 'not-readable' for what is no readings file
 */
export async function previewImport(context: Context, request: PreviewRequest): Promise<ImportPreview> {
  const bytes = await gather(request.source);
  const { entities } = context.store;
  const [units, saved] = await Promise.all([listUnits(entities), listMappings(entities)]);
  const zones = new Map(units.map(({ tag, site }) => [tag, site.timeZone]));
  const options: ReadingOptions = {
    knownTags: new Set(zones.keys()),
    mapping: request.mapping,
    timeZone: request.timeZone,
  };
  const head = await previewReadings(once(bytes), options, SHOWN_ROWS);
  const tally = new Tally();
  const faults =
    head.faults.length > 0 ? head.faults : await readAll(once(bytes), options, tally, request.isCut);
  const { rows, setAside } = tally;
  return {
    file: request.name,
    format: head.format,
    rows: shownRows(head),
    faults,
    looked: { rows, isWhole: !request.isCut, setAside: setAside.length },
    setAside: setAside.slice(0, SHOWN_SET_ASIDE),
    units: [...tally.units].map(([tag, span]) => ({ tag, timeZone: zones.get(tag) ?? 'UTC', ...span })),
    plot: tally.sample.plot(),
    mapping: await mappingTask({
      file: request.name,
      open: () => once(bytes),
      mapping: request.mapping,
      units,
      saved,
    }),
  };
}

async function gather(source: AsyncIterable<Uint8Array>): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  let size = 0;
  for await (const piece of source) {
    size += piece.length;
    pieces.push(piece);
    const most = isWorkbook(pieces[0]!) ? PREVIEW_WORKBOOK_BYTES : PREVIEW_BYTES;
    if (size > most) throw tooLarge(most);
  }
  return Buffer.concat(pieces);
}

/** A workbook is a zip archive, which begins with these four bytes. */
function isWorkbook(first: Uint8Array): boolean {
  return first[0] === 0x50 && first[1] === 0x4b && first[2] === 3 && first[3] === 4;
}

function tooLarge(most: number): AppError {
  const remedy =
    most === PREVIEW_BYTES
      ? 'send the beginning of the file only, with cut=1 in the address'
      : 'import it with `npx cleanby import FILE --guess`, or save the sheet as CSV';
  return new AppError('too-large', `A preview takes at most ${most} bytes of such a file`, [
    { field: 'body', message: remedy },
  ]);
}

async function* once(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}

async function readAll(
  source: AsyncIterable<Uint8Array>,
  options: ReadingOptions,
  tally: Tally,
  isCut: boolean,
): Promise<Fault[]> {
  try {
    for await (const chunk of readReadings(source, options)) tally.take(chunk);
  } catch (error) {
    // The beginning of a compressed file always ends in the middle of it.
    if (!(error instanceof AppError)) throw error;
    if (!isCut) return error.faults.length > 0 ? error.faults : [{ field: 'file', message: error.message }];
  }
  if (isCut) tally.dropCutLine();
  return [];
}

function shownRows(head: ReadingPreview): ImportPreview['rows'] {
  return head.rows.map(({ line, text, readings }) => ({ line, text, readings }));
}

type Span = { readings: number; firstTime: number; lastTime: number };

/** What a preview counts while it reads. */
class Tally {
  readonly units = new Map<string, Span>();
  readonly setAside: SetAsideRow[] = [];
  readonly sample = new PlotSample();
  rows = 0;
  #lastLine = 0;

  take(chunk: ReadingChunk): void {
    this.rows += chunk.read;
    for (const row of chunk.setAside) this.setAside.push(row);
    for (let i = 0; i < chunk.length; i++) {
      const tag = chunk.tags[chunk.tag[i]!]!;
      const time = chunk.time[i]!;
      const known = this.units.get(tag);
      if (known === undefined) this.units.set(tag, { readings: 1, firstTime: time, lastTime: time });
      else {
        known.readings++;
        known.firstTime = Math.min(known.firstTime, time);
        known.lastTime = Math.max(known.lastTime, time);
      }
      this.#lastLine = Math.max(this.#lastLine, chunk.line[i]!);
    }
    this.sample.take(chunk);
  }

  /** The last line of a cut file is itself cut: nothing is said about it. */
  dropCutLine(): void {
    const last = this.setAside.at(-1);
    if (last !== undefined && last.line >= this.#lastLine) this.setAside.pop();
  }
}
