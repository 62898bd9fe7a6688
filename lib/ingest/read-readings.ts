import { AppError } from '@/lib/contract/app-error';
import { type OpenReadings, openReadings, type RowMachinery, rowMachinery } from './open-readings';
import { textChunks } from './plain/text-chunks';
import type { ReadingChunk } from './reading-chunk';
import type { ReadingOptions } from './reading-format';

/**
 * Reads a file of readings as columns, a chunk at a time and in the file's order, in bounded memory.
 *
 * Takes canonical, long and plant-wide CSV in UTF-8, UTF-16, Windows-1252 (Latin-1) and code page 850, the same as a
 * sheet of an .xlsx workbook, and JSON lines; all of them gzipped or not. `sniffDialect` says how delimiter and decimal
 * sign are found, `findHeader` how the header is, `findTimes` how times are written. Rows that cannot be read come with the chunks, set aside.
 *
 * @throws AppError `not-readable` where it is no readings file or damaged, `invalid-input` where the header does not
 * say what the columns hold. Damage behind the first rows throws late: take nothing in before the last chunk.
 */
export async function* readReadings(
  source: AsyncIterable<Uint8Array>,
  options: ReadingOptions,
): AsyncGenerator<ReadingChunk> {
  const file = await openReadings(source, options);
  try {
    refuseFaults(file);
    const machinery = rowMachinery(file, options);
    if (machinery.plain === null || file.text === null) yield* lineChunks(file, machinery);
    else yield* textChunks(file.text, machinery);
  } finally {
    await file.close();
  }
}

/** The chunks of a file whose every line is read with its cells. */
export async function* lineChunks(
  { lines }: OpenReadings,
  { builder, feed }: RowMachinery,
): AsyncGenerator<ReadingChunk> {
  for await (const batch of lines) {
    for (const line of batch) {
      feed.take(line);
      if (builder.isFull) yield builder.take();
    }
  }
  feed.end();
  if (builder.read > 0) yield builder.take();
}

function refuseFaults({ layout: { faults }, format: { sheet } }: OpenReadings): void {
  const first = faults[0];
  if (first === undefined) return;
  const more = faults.length === 1 ? '' : ` (and ${faults.length - 1} more)`;
  const column = first.field.replace(/\s+/g, ' ').slice(0, 60);
  const place = sheet === null ? `Line ${first.line}` : `Sheet "${sheet.slice(0, 60)}", row ${first.line}`;
  throw new AppError('invalid-input', `${place}, "${column}": ${first.message}${more}`, faults);
}
