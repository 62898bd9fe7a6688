import { DEFAULT_HORIZON_DAYS } from '@/lib/core/pipeline/method-version';
import type { KnownTrend } from '@/lib/core/pipeline/standing';
import { type TrendInput, trendUnit } from '@/lib/core/pipeline/trend-unit';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { trendFromText, trendText } from '@/lib/store/entities/trend-text';
import { dailyRecord, FIRST_DAY } from '../support/daily-record';
import { constantFluid, DAY_MS, waterUnit } from '../support/forward-readings';
import { type BenchOptions, type BenchPiece, type BenchRow, growthExponent, median } from './measure';

const UNIT = waterUnit({ hot: constantFluid(4180), cold: constantFluid(4180) });
/** Days from one cleaning to the next [days]. */
const CYCLE_DAYS = 120;
const YEARS = [1, 2, 5, 10];
const UNITS = 12;
/** The running cycle is as old in every record, so that only what lies behind it differs [days]. */
const RUNNING_DAYS = 80;
/** Most that a unit of ten years may cost beside one of one year: this exponent of the length of the record [-]. */
const MOST_EXPONENT = 0.25;
const LINEAR = 1.1;
const PEER = 'the same trend from scratch';

/** `npm run bench trend` */
export const trendPiece: BenchPiece = {
  name: 'trend',
  about: "a day's update of a unit's trend against the same from scratch, by the length of its record",
  run: async (options) => rowsOf(options),
};

type UnitRecord = { input: TrendInput; known: KnownTrend; knownText: string };

function rowsOf({ runs, scale, say }: BenchOptions): BenchRow[] {
  const units = Math.max(2, Math.round(UNITS * scale));
  const measured = YEARS.map((years) => {
    say(`${units} units of ${years} years`);
    return { years, ...measure(recordsOf(units, years), runs) };
  });
  const exponent = (of: 'update' | 'scratch') =>
    growthExponent(measured.map((row) => [row.years, row[of]] as const));
  const bare = { peer: null, peerName: null, ratio: null, memory: null };
  return [
    ...measured.map(
      ({ years, update, scratch }): BenchRow => ({
        what: `a day's update of a unit of ${years} years (CPU)`,
        ours: update,
        peer: scratch,
        peerName: PEER,
        unit: 'ms',
        ratio: update / scratch,
        limit: years < 5 ? null : { most: 0.5 },
        memory: null,
      }),
    ),
    {
      ...bare,
      what: "exponent of a day's update with years of record",
      ours: exponent('update'),
      unit: '',
      limit: { most: MOST_EXPONENT },
    },
    {
      ...bare,
      what: 'exponent of a trend from scratch with years of record',
      ours: exponent('scratch'),
      unit: '',
      limit: { most: LINEAR },
    },
    {
      ...bare,
      what: `stored trend of a unit of ${YEARS.at(-1)} years`,
      ours: median(recordsOf(2, YEARS.at(-1)!).map(({ knownText }) => knownText.length / 1000)),
      unit: 'kB',
      limit: null,
    },
  ];
}

/** Records of units that are cleaned every four months, with what was said of each on the day before. */
function recordsOf(units: number, years: number): UnitRecord[] {
  return Array.from({ length: units }, (_, seed) => {
    const days = Math.ceil((years * 365) / CYCLE_DAYS) * CYCLE_DAYS + RUNNING_DAYS;
    const rate = 1.2e-6 * (1 + 0.05 * seed);
    const daily = dailyRecord(UNIT, { days, fouling: (day) => rate * (day % CYCLE_DAYS), noise: 4e-6, seed });
    const cleanings = Array.from({ length: Math.floor(days / CYCLE_DAYS) }, (_, k) => {
      const localDay = FIRST_DAY + (k + 1) * CYCLE_DAYS;
      return { at: localDay * DAY_MS - 3_600_000, localDay };
    });
    const on = (row: number): TrendInput => ({
      exchanger: UNIT,
      daily,
      cleanings,
      asOf: (FIRST_DAY + row + 1) * DAY_MS - 1,
      todayLocalDay: FIRST_DAY + row,
      horizonDays: DEFAULT_HORIZON_DAYS,
    });
    const knownText = trendText(trendUnit(on(days - 2)));
    const known = { trend: trendFromText(knownText), changedSinceDay: FIRST_DAY + days - 3 };
    return { input: on(days - 1), known, knownText };
  });
}

/** CPU time of one unit [ms], medians over the runs; update and scratch in turn. */
function measure(records: readonly UnitRecord[], runs: number): { update: number; scratch: number } {
  const times = { update: [] as number[], scratch: [] as number[] };
  for (let run = 0; run <= runs; run++) {
    const update = cpuTime(() => records.map(({ input, known }) => trendUnit({ ...input, known })));
    const scratch = cpuTime(() => records.map(({ input }) => trendUnit(input)));
    if (said(update.made[0]!) !== said(scratch.made[0]!))
      throw new Error('an update gives another trend than from scratch');
    // The first run is for the compiler.
    if (run === 0) continue;
    times.update.push(update.took / records.length);
    times.scratch.push(scratch.took / records.length);
  }
  return { update: median(times.update), scratch: median(times.scratch) };
}

/** All but how near the search for steps came to its threshold: that is told of the day it was made on. */
function said(trend: UnitTrend): string {
  return trendText({ ...trend, searches: [] });
}

function cpuTime<Made>(make: () => Made): { made: Made; took: number } {
  const before = process.cpuUsage();
  const made = make();
  const { user, system } = process.cpuUsage(before);
  return { made, took: (user + system) / 1000 };
}
