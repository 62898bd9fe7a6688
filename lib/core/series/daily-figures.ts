import { REASON_BIT, REASONS } from '../checks/reasons';
import type { Exchanger } from '../exchange/exchanger';
import type { EvaluationColumns } from '../fouling/evaluation-columns';
import { medianInPlace } from '../stats/median-in-place';
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
  const room = makeRoom(starts, localDay.length);
  starts.forEach((start, row) => {
    const end = starts[row + 1] ?? localDay.length;
    daily.day[row] = localDay[start]!;
    daily.readings[row] = end - start;
    daily.accepted[row] = countAccepted(evaluation, start, end);
    daily.off[row] = countOff(evaluation, start, end);
    daily.worstReason[row] = worstReason(evaluation, start, end);
    daily.balance[row] = typicalBalance(evaluation, { start, end, values: room.values });
    const count = rowsBehindFigure(evaluation, { start, end, cleanings: input.cleanings, rows: room.rows });
    if (count > 0)
      writeFigures(daily, row, { evaluation, readings, ...room, count, exchanger: input.exchanger });
  });
  return daily;
}

/** Room for the readings of the longest day, used for one day and one median after another. */
function makeRoom(starts: readonly number[], length: number): { rows: Int32Array; values: Float64Array } {
  const longest = starts.reduce((most, start, row) => Math.max(most, (starts[row + 1] ?? length) - start), 0);
  return { rows: new Int32Array(longest), values: new Float64Array(longest) };
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
  let any = 0;
  for (let i = start; i < end; i++) any |= reasons[i]!;
  let worst = -1;
  let most = 0;
  for (let reason = 0; any !== 0 && reason < REASONS.length; reason++) {
    if (reason === UNIT_OFF || ((any >>> reason) & 1) === 0) continue;
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
function typicalBalance(
  { reasons, balance }: EvaluationColumns,
  { start, end, values }: { start: number; end: number; values: Float64Array },
): number {
  let count = 0;
  for (let i = start; i < end; i++) {
    const isOtherwiseSound = (reasons[i]! & ~REASON_BIT['balance-not-closed']) === 0;
    if (isOtherwiseSound && !Number.isNaN(balance[i]!)) values[count++] = balance[i]!;
  }
  return medianInPlace(values, count);
}

/** Writes which readings the figure of a day rests on; how many they are. */
function rowsBehindFigure(
  { time, reasons }: EvaluationColumns,
  day: { start: number; end: number; cleanings: readonly number[]; rows: Int32Array },
): number {
  const { start, end, rows } = day;
  const first = time[start]!;
  const last = time[end - 1]!;
  const cut = lastWithin(day.cleanings, first, last);
  let count = 0;
  for (let i = start; i < end; i++) if (reasons[i] === 0 && time[i]! >= cut) rows[count++] = i;
  if (count > 0) return count;
  for (let i = start; i < end; i++) if (reasons[i] === 0) rows[count++] = i;
  return count;
}

/** The last of ascending instants after the first and up to the last of a day; −∞ for none. By halving: a record has many days. */
function lastWithin(instants: readonly number[], first: number, last: number): number {
  let low = 0;
  let high = instants.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (instants[middle]! <= last) low = middle + 1;
    else high = middle;
  }
  const found = instants[low - 1] ?? Number.NEGATIVE_INFINITY;
  return found > first ? found : Number.NEGATIVE_INFINITY;
}

type DayOfReadings = {
  evaluation: EvaluationColumns;
  readings: ReadingColumns;
  /** The readings behind the figure: the first `count` of the rows. */
  rows: Int32Array;
  count: number;
  values: Float64Array;
  exchanger: Exchanger;
};

function writeFigures(daily: DailyColumns, row: number, of: DayOfReadings): void {
  const { evaluation, readings, rows, count } = of;
  daily.firstAccepted[row] = evaluation.time[rows[0]!]!;
  daily.lastAccepted[row] = evaluation.time[rows[count - 1]!]!;
  for (const name of EVALUATED) daily[name][row] = medianOf(of, evaluation[name]);
  for (const name of MEASURED) daily[name][row] = medianOfMeasured(of, readings[name]);
  const scatter =
    NORMAL_CONSISTENCY * deviationAbout(of, evaluation.foulingResistance, daily.foulingResistance[row]!);
  const systematic = medianOf(of, evaluation.foulingResistanceSystematic);
  const combined = medianOf(of, evaluation.foulingResistanceUncertainty);
  daily.foulingResistanceScatter[row] = scatter;
  daily.foulingResistanceSystematic[row] = systematic;
  daily.foulingResistanceUncertainty[row] = dailyUncertainty({ combined, systematic, scatter, count });
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

function medianOf({ rows, count, values }: DayOfReadings, column: Float64Array): number {
  for (let k = 0; k < count; k++) values[k] = column[rows[k]!]!;
  return medianInPlace(values, count);
}

/** NaN where none of the rows has a value: a temperature that is always inferred. */
function medianOfMeasured({ rows, count, values }: DayOfReadings, column: Float64Array): number {
  let measured = 0;
  for (let k = 0; k < count; k++) {
    const value = column[rows[k]!]!;
    if (!Number.isNaN(value)) values[measured++] = value;
  }
  return medianInPlace(values, measured);
}

function deviationAbout(
  { rows, count, values }: DayOfReadings,
  column: Float64Array,
  centre: number,
): number {
  for (let k = 0; k < count; k++) values[k] = Math.abs(column[rows[k]!]! - centre);
  return medianInPlace(values, count);
}

/** Median of Δp·(ṁ_ref/ṁ)^m over the readings that have one; a reading of zero or less is a dead transmitter. */
function scaledPressureDrop(
  { evaluation, readings, rows, count, values, exchanger }: DayOfReadings,
  side: 'hot' | 'cold',
): number {
  const measured = readings[`${side}PressureDrop`];
  const flow = evaluation[`${side}MassFlow`];
  const reference = exchanger.design[`${side}Flow`];
  const exponent = exchanger.pressureDropExponents[side];
  let usable = 0;
  for (let k = 0; k < count; k++) {
    const i = rows[k]!;
    if (measured[i]! > 0 && Number.isFinite(measured[i]!))
      values[usable++] = pressureDropAtReference(measured[i]!, flow[i]! / reference, exponent);
  }
  return medianInPlace(values, usable);
}
