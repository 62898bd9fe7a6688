import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { cpuOf } from './cpu-time';
import { HOUR_MS, READINGS, recordOf } from './kernel-data';
import { whole } from './kernel-ours';
import { type BenchRow, growthExponent, median } from './measure';

const YEARS = [1, 2, 5, 10];
/** Readings an hour, over as many days. */
const RATES = [1, 4, 12, 60];
const DAYS = 60;
/** Linear, with some room for a cache that a longer record does not fit into [-]. */
const MOST_EXPONENT = 1.05;

/** How the time of an evaluation grows with the length of the record and with how often it is read. */
export function growthRows(exchanger: Exchanger, unit: string, runs: number): BenchRow[] {
  const byYears = YEARS.map((years) => ({ size: years, count: years * READINGS, stepMs: HOUR_MS }));
  const byRate = RATES.map((rate) => ({ size: rate, count: DAYS * 24 * rate, stepMs: HOUR_MS / rate }));
  return [
    rowOf(
      `${unit}: exponent of the evaluation with history, 1 to 10 years`,
      exponentOf(exchanger, byYears, runs),
    ),
    rowOf(
      `${unit}: exponent of the evaluation with readings an hour, 1 to 60 over ${DAYS} days`,
      exponentOf(exchanger, byRate, runs),
    ),
  ];
}

type Size = { size: number; count: number; stepMs: number };

function exponentOf(exchanger: Exchanger, sizes: readonly Size[], runs: number): number {
  const records = sizes.map(({ size, count, stepMs }) => ({
    size,
    record: recordOf(exchanger, 1, { count, stepMs }),
    times: [] as number[],
  }));
  // In turn, so that whatever slows the machine down slows every size.
  for (let run = 0; run < runs; run++)
    for (const { record, times } of records) times.push(cpuOf(() => whole(exchanger, record)));
  return growthExponent(records.map(({ size, times }) => [size, median(times)] as const));
}

function rowOf(what: string, exponent: number): BenchRow {
  const none = { peer: null, peerName: null, ratio: null, memory: null };
  return { ...none, what, ours: exponent, unit: '', limit: { most: MOST_EXPONENT } };
}
