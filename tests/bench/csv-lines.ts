import { SENSORS } from '@/lib/core/exchange/exchanger';
import {
  COLD_FLOW_IS_VOLUME,
  HOT_FLOW_IS_VOLUME,
  type ReadingColumns,
} from '@/lib/core/series/reading-columns';

const NAMES = ['hot_in', 'hot_out', 'cold_in', 'cold_out', 'hot_flow', 'cold_flow'];

/** One reading as a line of the canonical file, with its line end. */
export type LineMaker = (tag: string, readings: ReadingColumns, row: number) => string;

/** Header line and lines of the canonical file in SI, for units whose flows are measured as the bits say. */
export function csvLines(flowBasis: number): { head: string; lineOf: LineMaker } {
  const flow = (isVolume: number) => (isVolume ? 'm3/s' : 'kg/s');
  const flows = [flow(flowBasis & HOT_FLOW_IS_VOLUME), flow(flowBasis & COLD_FLOW_IS_VOLUME)];
  const codes = ['Cel', 'Cel', 'Cel', 'Cel', ...flows];
  const head = `tag,time,${NAMES.map((name, n) => `${name}[${codes[n]}]`).join(',')}\n`;
  const lineOf: LineMaker = (tag, readings, row) => {
    const values = SENSORS.slice(0, NAMES.length).map((sensor) => text(readings[sensor][row]!));
    return `${tag},${new Date(readings.time[row]!).toISOString()},${values.join(',')}\n`;
  };
  return { head, lineOf };
}

function text(value: number): string {
  return Number.isNaN(value) ? '' : String(value);
}
