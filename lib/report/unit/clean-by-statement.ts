import type { Sensor } from '@/lib/core/exchange/exchanger';
import type { LimitResult, UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { formatNumber } from '@/lib/report/format/figure';
import { formatDay, formatSpan } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { LIMIT_WORDS, REASON_WORDS, SENSOR_WORDS } from '@/lib/report/format/words';
import { DAY_MS } from '@/lib/time/calendar-day';
import { governingLimit } from './fouling-chart';
import { listInWords, modelsInWords } from './growth-words';
import { limitInWords } from './limit-words';
import { lendersInWords } from './record-view';

/** A sentence in pieces, so that what matters can stand out. */
export type Statement = { text: string; isStrong: boolean }[];

export type StatementInput = {
  trend: UnitTrend | null;
  system: UnitSystem;
  today: number;
  /** Day of the last accepted reading; null without any. */
  lastAcceptedDay: number | null;
  /** Sensors that the readings name as the cause; may be empty. */
  sensors: Sensor[];
};

/** What a person must know first: when this unit is to be cleaned, or why nobody can say. */
export function cleanByStatement(input: StatementInput): Statement {
  const { trend } = input;
  if (trend === null) return [plain('Not analysed yet: results follow the next analysis of its readings.')];
  if (trend.state === 'no-data') return noData(trend, input);
  const governing = governingLimit(trend);
  if (governing === null)
    return [plain('Too few accepted days in this cycle to project when a limit is reached.')];
  if (governing.crossedDay !== null)
    return crossed(trend, { governing, crossedDay: governing.crossedDay, input });
  if (governing.withinHorizon === null) {
    return [
      strong('Too early to project'),
      plain(`: this cycle has too few daily figures to tell how fast it fouls${usedAndModels(trend)}.`),
    ];
  }
  if (governing.p50Day === null) return notWithinHorizon(trend, governing, governing.withinHorizon, input);
  return projected(trend, { governing, p50Day: governing.p50Day, input });
}

function projected(
  trend: UnitTrend,
  { governing, p50Day, input }: { governing: LimitResult; p50Day: number; input: StatementInput },
): Statement {
  const p10 = governing.p10Day === null ? '' : `P10 ${shortDay(governing.p10Day, p50Day)} – `;
  const p90 =
    governing.p90Day === null
      ? `P90 later than ${monthsInWords(trend.horizonDays)} from now`
      : `P90 ${formatDay(governing.p90Day)}`;
  return [
    plain(`Projected to reach ${limitInWords(governing.limit, input.system)} around `),
    strong(formatDay(p50Day)),
    plain(` (${p10}${p90}), judged by ${LIMIT_WORDS[governing.limit.kind]}${usedAndModels(trend)}.`),
  ];
}

function crossed(
  trend: UnitTrend,
  { governing, crossedDay, input }: { governing: LimitResult; crossedDay: number; input: StatementInput },
): Statement {
  const days = input.today - crossedDay;
  const since = days < 1 ? '' : `, ${formatSpan(days * DAY_MS)} ago`;
  return [
    strong(`Over its limit since ${formatDay(crossedDay)}`),
    plain(`${since}: it reached ${limitInWords(governing.limit, input.system)}${usedAndModels(trend)}.`),
  ];
}

function notWithinHorizon(
  trend: UnitTrend,
  governing: LimitResult,
  probability: number,
  { system }: StatementInput,
): Statement {
  const share = probabilityInWords(probability);
  const early = governing.p10Day === null ? '' : `, at the earliest (P10) ${formatDay(governing.p10Day)}`;
  return [
    strong(`Not projected to reach its limit within ${monthsInWords(trend.horizonDays)}`),
    plain(
      `: the probability of reaching ${limitInWords(governing.limit, system)} by then is ${share}${early}${usedAndModels(trend)}.`,
    ),
  ];
}

function noData(trend: UnitTrend, { lastAcceptedDay, sensors }: StatementInput): Statement {
  const { worstReason, sinceDay } = trend.health;
  const since = lastAcceptedDay ?? sinceDay;
  const named =
    sensors.length === 0 ? '' : ` (${listInWords(sensors.map((sensor) => SENSOR_WORDS[sensor]))})`;
  const cause = worstReason === null ? 'no readings arrive' : `${REASON_WORDS[worstReason]}${named}`;
  const from = worstReason === null || sinceDay === null ? '' : ` since ${formatDay(sinceDay)}`;
  return [
    strong(since === null ? 'No accepted reading yet' : `No accepted reading since ${formatDay(since)}`),
    plain(`: ${cause}${from}. Until that is mended nobody can say when this unit must be cleaned.`),
  ];
}

function usedAndModels(trend: UnitTrend): string {
  const used =
    trend.allowanceUsed === null
      ? ''
      : `; ${formatNumber(trend.allowanceUsed * 100, 0)} % of the allowance used`;
  // The models are those of the fouling resistance: they carry no pressure drop.
  const isByPressure = governingLimit(trend)?.limit.kind === 'pressure-drop';
  const models = isByPressure ? null : modelsInWords(trend.growth?.models ?? []);
  if (models === null) return used;
  return `${used}; ${models}${borrowedInWords(trend)}${sinceFallInWords(trend)}`;
}

/** Growth that is not of this cycle's own figures alone says whose it is. */
function borrowedInWords({ borrowed }: UnitTrend): string {
  const lenders = lendersInWords(borrowed);
  return lenders === null ? '' : `, form and rate also from ${lenders}`;
}

function sinceFallInWords({ cycles }: UnitTrend): string {
  const running = cycles.at(-1);
  if (running?.began !== 'probable-cleaning') return '';
  return `; fitted to the figures since the fall of ${formatDay(running.startDay)} only`;
}

/** Below a tenth of a per cent no projection can tell one probability from another. */
export function probabilityInWords(probability: number): string {
  if (probability < 0.001) return 'less than 0.1 %';
  return `${formatNumber(probability * 100, probability < 0.1 ? 1 : 0)} %`;
}

/** The year is said once, by the day in the middle, unless it differs. */
function shortDay(day: number, beside: number): string {
  const yearOf = (text: string) => text.slice(-4);
  return formatDay(day, { year: yearOf(formatDay(day)) !== yearOf(formatDay(beside)) });
}

/** Mean length of a month in the Gregorian calendar [d]. */
const DAYS_PER_MONTH = 30.44;

/** A length of time in months, in days below two of them. */
export function monthsInWords(days: number): string {
  const count = Math.round(days / DAYS_PER_MONTH);
  return count < 2 ? `${days} days` : `${count} months`;
}

const plain = (text: string) => ({ text, isStrong: false });
const strong = (text: string) => ({ text, isStrong: true });

/** The statement as one string, for titles and tests. */
export function statementText(statement: Statement): string {
  return statement.map(({ text }) => text).join('');
}
