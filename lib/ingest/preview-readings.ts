import type { Fault } from '@/lib/contract/app-error';
import type { SetAsideRow } from '@/lib/contract/import-report';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { type OpenReadings, openReadings, rowMachinery } from './open-readings';
import type { Line } from './read-cells';
import type { ReadingChunk } from './reading-chunk';
import type { ReadingFormat, ReadingOptions } from './reading-format';
import { MAX_TEXT_CHARACTERS } from './set-aside';

/** One unit's reading as it would be stored: values in SI, flows in m³/s where `volumeFlow` names them. */
export type PreviewReading = {
  tag: string;
  /** [ms] */
  time: number;
  values: Partial<Record<Sensor, number>>;
  flowBasis: number;
};

export type PreviewRow = {
  line: number;
  /** The line as written, cut at 500 characters. */
  text: string;
  cells: string[];
  readings: PreviewReading[];
};

export type ReadingPreview = {
  format: ReadingFormat;
  rows: PreviewRow[];
  setAside: SetAsideRow[];
  /** What must be mended or mapped before the file can be read; while there is any, rows have cells only. */
  faults: Fault[];
};

/** The first rows of a file as they would be read, for a person to check columns, units and decimal sign. */
export async function previewReadings(
  source: AsyncIterable<Uint8Array>,
  options: ReadingOptions,
  rows = 20,
): Promise<ReadingPreview> {
  const file = await openReadings(source, options);
  try {
    const lines = await firstLines(file, rows);
    const faults = file.layout.faults;
    const chunk = faults.length > 0 ? null : readLines(lines, file, options);
    return {
      format: file.format,
      rows: lines.map((line) => previewRow(line, chunk)),
      setAside: chunk?.setAside ?? [],
      faults,
    };
  } finally {
    await file.close();
  }
}

async function firstLines(file: OpenReadings, rows: number): Promise<Line[]> {
  const taken: Line[] = [];
  for await (const lines of file.lines) {
    for (const line of lines) {
      if (line.text.trim() !== '') taken.push(line);
      if (taken.length >= rows) return taken;
    }
  }
  return taken;
}

function readLines(lines: Line[], file: OpenReadings, options: ReadingOptions): ReadingChunk {
  const { builder, feed } = rowMachinery(file, options);
  for (const line of lines) feed.take(line);
  feed.end();
  return builder.take();
}

function previewRow({ line, text, cells }: Line, chunk: ReadingChunk | null): PreviewRow {
  return {
    line,
    text: text.slice(0, MAX_TEXT_CHARACTERS),
    cells: typeof cells === 'string' ? [] : cells,
    readings: chunk === null ? [] : readingsOfLine(chunk, line),
  };
}

function readingsOfLine(chunk: ReadingChunk, line: number): PreviewReading[] {
  const readings: PreviewReading[] = [];
  for (let i = 0; i < chunk.length; i++) {
    if (chunk.line[i] !== line) continue;
    const values: PreviewReading['values'] = {};
    for (const sensor of SENSORS) if (!Number.isNaN(chunk[sensor][i])) values[sensor] = chunk[sensor][i]!;
    readings.push({
      tag: chunk.tags[chunk.tag[i]!]!,
      time: chunk.time[i]!,
      values,
      flowBasis: chunk.flowBasis[i]!,
    });
  }
  return readings;
}
