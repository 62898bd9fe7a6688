import { REASON_BIT, REASONS } from '../checks/reasons';
import type { Exchanger } from '../exchange/exchanger';
import type { EvaluationColumns } from '../fouling/evaluation-columns';
import { median } from '../stats/quantile';
import { NORMAL_CONSISTENCY } from '../stats/spread';
import { type DailyColumns, makeDailyColumns } from './daily-columns';
import { dailyUncertainty } from './daily-uncertainty';
import { pressureDropAtReference } from './pressure-drop';
import type { ReadingColumns } from './reading-columns';

const UNIT_OFF = REASONS.indexOf('unit-off');

export type DailyInput = {
  /** Local day of each reading, as days since 1970-01-01, ascending, length n. */
  localDay: Int32Array;
  /** Instants of the recorded cleanings [ms], ascending. */
  cleanings: readonly number[];
  exchanger: Exchanger;
};

/**
 * Figures of each local day that has readings: medians over its accepted readings. On the day of a cleaning only
 * readings after the day's last cleaning count, if any of them is accepted, else those before.
 *
 * @param evaluation evaluated readings, length n
 * @param readings   the readings themselves, length n [°C, Pa]
 * @param input      local day of each reading, cleanings [ms], the unit
 * @returns one row per local day with readings; RangeError where lengths differ
 * @range  days of any number of readings; 23- and 25-hour days are as any other
 * @source METHODS §7
 * @check  tests/core/series/daily-figures.test.ts
 */
export function dailyFigures(
  evaluation: EvaluationColumns,
  readings: ReadingColumns,
  input: DailyInput,
): DailyColumns {
  const { localDay } = input;
  if (localDay.length !== evaluation.time.length || readings.time.length !== evaluation.time.length) {
    throw new RangeError('evaluation, readings and localDay must have the same length');
  }
  const starts = firstReadings(localDay);
  const daily = makeDailyColumns(starts.length);
  starts.forEach((start, row) => {
    const end = starts[row + 1] ?? localDay.length;
    daily.day[row] = localDay[start]!;
    daily.readings[row] = end - start;
    daily.accepted[row] = countAccepted(evaluation, start, end);
    daily.off[row] = countOff(evaluation, start, end);
    daily.worstReason[row] = worstReason(evaluation, start, end);
    daily.balance[row] = typicalBalance(evaluation, start, end);
    const rows = rowsBehindFigure(evaluation, { start, end, cleanings: input.cleanings });
    if (rows.length > 0) writeFigures(daily, row, { evaluation, readings, rows, exchanger: input.exchanger });
  });
  return daily;
}

/** Index of the first reading of each local day. */
function firstReadings(localDay: Int32Array): number[] {
  const starts: number[] = [];
  for (let i = 0; i < localDay.length; i++) if (i === 0 || localDay[i] !== localDay[i - 1]) starts.push(i);
  return starts;
}

function countAccepted({ reasons }: EvaluationColumns, start: number, end: number): number {
  let count = 0;
  for (let i = start; i < end; i++) if (reasons[i] === 0) count++;
  return count;
}

function countOff({ reasons }: EvaluationColumns, start: number, end: number): number {
  let count = 0;
  for (let i = start; i < end; i++) if ((reasons[i]! & REASON_BIT['unit-off']) !== 0) count++;
  return count;
}

/**
 * Index of the reason that left out most of these readings; the one judged first where two left out as many; −1 for none.
 * Standing still is no fault of the data: it is named only where nothing else left a reading out.
 */
function worstReason(evaluation: EvaluationColumns, start: number, end: number): number {
  const { reasons } = evaluation;
  let worst = -1;
  let most = 0;
  for (let reason = 0; reason < REASONS.length; reason++) {
    if (reason === UNIT_OFF) continue;
    let count = 0;
    for (let i = start; i < end; i++) count += (reasons[i]! >>> reason) & 1;
    if (count > most) {
      most = count;
      worst = reason;
    }
  }
  return worst < 0 && countOff(evaluation, start, end) > 0 ? UNIT_OFF : worst;
}

/** What the balance shows of the sensors is there whether it closes or not. */
function typicalBalance({ reasons, balance }: EvaluationColumns, start: number, end: number): number {
  const found: number[] = [];
  for (let i = start; i < end; i++) {
    const isOtherwiseSound = (reasons[i]! & ~REASON_BIT['balance-not-closed']) === 0;
    if (isOtherwiseSound && !Number.isNaN(balance[i]!)) found.push(balance[i]!);
  }
  return median(found);
}

function rowsBehindFigure(
  { time, reasons }: EvaluationColumns,
  day: { start: number; end: number; cleanings: readonly number[] },
): number[] {
  const first = time[day.start]!;
  const last = time[day.end - 1]!;
  const cut = day.cleanings.findLast((at) => at > first && at <= last) ?? Number.NEGATIVE_INFINITY;
  const before: number[] = [];
  const after: number[] = [];
  for (let i = day.start; i < day.end; i++) {
    if (reasons[i] === 0) (time[i]! >= cut ? after : before).push(i);
  }
  return after.length > 0 ? after : before;
}

type DayOfReadings = {
  evaluation: EvaluationColumns;
  readings: ReadingColumns;
  rows: number[];
  exchanger: Exchanger;
};

function writeFigures(daily: DailyColumns, row: number, of: DayOfReadings): void {
  const { evaluation, readings, rows } = of;
  const medianOf = (column: Float64Array) => median(rows.map((i) => column[i]!));
  daily.firstAccepted[row] = evaluation.time[rows[0]!]!;
  daily.lastAccepted[row] = evaluation.time[rows.at(-1)!]!;
  for (const name of EVALUATED) daily[name][row] = medianOf(evaluation[name]);
  for (const name of MEASURED) daily[name][row] = medianOfMeasured(rows, readings[name]);
  const fouling = daily.foulingResistance[row]!;
  const scatter =
    NORMAL_CONSISTENCY * median(rows.map((i) => Math.abs(evaluation.foulingResistance[i]! - fouling)));
  const systematic = medianOf(evaluation.foulingResistanceSystematic);
  const combined = medianOf(evaluation.foulingResistanceUncertainty);
  daily.foulingResistanceScatter[row] = scatter;
  daily.foulingResistanceSystematic[row] = systematic;
  daily.foulingResistanceUncertainty[row] = dailyUncertainty({
    combined,
    systematic,
    scatter,
    count: rows.length,
  });
  daily.hotPressureDrop[row] = scaledPressureDrop(of, 'hot');
  daily.coldPressureDrop[row] = scaledPressureDrop(of, 'cold');
}

const EVALUATED = [
  'duty',
  'overallU',
  'cleanU',
  'foulingResistance',
  'lostDuty',
  'hotMassFlow',
  'coldMassFlow',
] as const;
const MEASURED = ['hotIn', 'hotOut', 'coldIn', 'coldOut'] as const;

/** NaN where none of the rows has a value: a temperature that is always inferred. */
function medianOfMeasured(rows: number[], column: Float64Array): number {
  return median(rows.map((i) => column[i]!).filter((value) => !Number.isNaN(value)));
}

/** Median of Δp·(ṁ_ref/ṁ)^m over the readings that have one; a reading of zero or less is a dead transmitter. */
function scaledPressureDrop(
  { evaluation, readings, rows, exchanger }: DayOfReadings,
  side: 'hot' | 'cold',
): number {
  const measured = readings[`${side}PressureDrop`];
  const flow = evaluation[`${side}MassFlow`];
  const reference = exchanger.design[`${side}Flow`];
  const exponent = exchanger.pressureDropExponents[side];
  const scaled: number[] = [];
  for (const i of rows) {
    if (measured[i]! > 0 && Number.isFinite(measured[i]!))
      scaled.push(pressureDropAtReference(measured[i]!, flow[i]! / reference, exponent));
  }
  return median(scaled);
}
