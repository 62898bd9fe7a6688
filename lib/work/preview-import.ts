import { AppError, type Fault } from '@/lib/contract/app-error';
import type { ImportPreview } from '@/lib/contract/import-preview';
import type { SetAsideRow } from '@/lib/contract/import-report';
import type { Mapping } from '@/lib/contract/mapping';
import { previewReadings, type ReadingPreview } from '@/lib/ingest/preview-readings';
import { readReadings } from '@/lib/ingest/read-readings';
import type { ReadingChunk } from '@/lib/ingest/reading-chunk';
import type { ReadingOptions } from '@/lib/ingest/reading-format';
import { listUnits } from '@/lib/store/entities/units';
import type { Context } from './context';
import { PlotSample } from './plot-sample';

/** The beginning of a file a preview looks at [bytes]: some 20,000 canonical rows. */
export const PREVIEW_BYTES = 2 ** 21;
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
  const zones = new Map(
    (await listUnits(context.store.entities)).map(({ tag, site }) => [tag, site.timeZone]),
  );
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
  };
}

async function gather(source: AsyncIterable<Uint8Array>): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  let size = 0;
  for await (const piece of source) {
    size += piece.length;
    if (size > PREVIEW_BYTES) {
      throw new AppError('too-large', `A preview takes the first ${PREVIEW_BYTES} bytes of a file`, [
        { field: 'body', message: 'send the beginning of the file only, with cut=1 in the address' },
      ]);
    }
    pieces.push(piece);
  }
  return Buffer.concat(pieces);
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
