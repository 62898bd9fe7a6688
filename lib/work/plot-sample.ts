import type { PreviewPlot } from '@/lib/contract/import-preview';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { reduceColumns } from '@/lib/core/series/reduce-columns';
import { typicalInterval } from '@/lib/core/series/typical-interval';
import type { ReadingChunk } from '@/lib/ingest/reading-chunk';

/** Pixel columns of the small plot. */
const PLOT_COLUMNS = 300;
/** A line is broken where readings are missing for longer than this many usual intervals [-]. */
const GAP_INTERVALS = 2.5;
/** Digits kept of a plotted value: more cannot be seen. */
const PLOTTED_DIGITS = 5;
const LEAST_SPAN_MS = 3_600_000;

/** The readings of the first unit of a file, for a small plot. */
export class PlotSample {
  #tag: string | null = null;
  #basis = 0;
  readonly #rows = new Map<number, Float64Array>();

  take(chunk: ReadingChunk): void {
    for (let i = 0; i < chunk.length; i++) {
      const tag = chunk.tags[chunk.tag[i]!]!;
      this.#tag ??= tag;
      if (tag !== this.#tag) continue;
      this.#basis |= chunk.flowBasis[i]!;
      this.#keep(chunk, i);
    }
  }

  // A long file brings the sensors of one instant in rows of their own.
  #keep(chunk: ReadingChunk, i: number): void {
    const time = chunk.time[i]!;
    const row = this.#rows.get(time) ?? new Float64Array(SENSORS.length).fill(Number.NaN);
    this.#rows.set(time, row);
    for (let s = 0; s < SENSORS.length; s++) {
      const value = chunk[SENSORS[s]!][i]!;
      if (!Number.isNaN(value)) row[s] = value;
    }
  }

  plot(): PreviewPlot | null {
    if (this.#tag === null || this.#rows.size === 0) return null;
    const rows = [...this.#rows].sort(([a], [b]) => a - b);
    const time = Float64Array.from(rows, ([at]) => at);
    const columns = SENSORS.map((_, s) => Float64Array.from(rows, ([, values]) => values[s]!));
    const interval = typicalInterval(time);
    const from = time[0]!;
    const reduced = reduceColumns(time, columns, {
      from,
      to: Math.max(time.at(-1)!, from + LEAST_SPAN_MS),
      buckets: PLOT_COLUMNS,
      gap: (interval > 0 ? interval : LEAST_SPAN_MS) * GAP_INTERVALS,
    });
    const values = Object.fromEntries(
      SENSORS.map((sensor, s) => [sensor, Array.from(reduced.columns[s]!, plottable)]),
    ) as PreviewPlot['values'];
    return { tag: this.#tag, time: Array.from(reduced.time, Math.round), values, flowBasis: this.#basis };
  }
}

function plottable(value: number): number | null {
  return Number.isNaN(value) ? null : Number(value.toPrecision(PLOTTED_DIGITS));
}
