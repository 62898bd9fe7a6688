import type { ChunkBuilder } from '../chunk-builder';
import type { ReadingChunk } from '../reading-chunk';
import type { RecordFeed } from '../record-feed';
import type { TextSource } from '../text-source';
import { ByteLines } from './byte-lines';
import { LineBlock } from './line-block';
import type { PlainRow } from './plain-row';

/** Bytes taken at a time, however large the pieces are in which they come. */
const STEP = 65_536;

/** The chunks of a text file, read by its bytes wherever its lines are plain. */
export async function* textChunks(
  source: TextSource,
  { builder, feed, plain }: { builder: ChunkBuilder; feed: RecordFeed; plain: PlainRow },
): AsyncGenerator<ReadingChunk> {
  const { skipped, decode, read } = source;
  const block = new LineBlock(source.terminator);
  const lines = new ByteLines({ block, skipped, decode, read, plain, feed, builder });
  for await (const piece of source.pieces()) {
    for (let from = 0; from < piece.length; from += STEP) {
      block.push(piece.subarray(from, from + STEP));
      while (lines.fillChunk()) yield builder.take();
    }
  }
  block.end();
  while (lines.fillChunk()) yield builder.take();
  feed.end();
  if (builder.read > 0) yield builder.take();
}
