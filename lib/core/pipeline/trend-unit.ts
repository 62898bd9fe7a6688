import { dutyLost } from '../cost/losing-unit';
import { type RecordedCleaning, splitCycles } from '../cycles/split-cycles';
import type { Exchanger } from '../exchange/exchanger';
import type { DailyColumns } from '../series/daily-columns';
import { upToLocalDay } from '../series/slice-daily';
import { allowanceOf } from './allowance';
import { cycleGrowth } from './cycle-growth';
import { cycleSpans } from './cycle-spans';
import { dataHealth } from './data-health';
import { describeCycle } from './describe-cycle';
import { losses } from './energy-lost';
import { flowDependence, withoutFlowDependence } from './flow-dependence';
import { judgeCleanings } from './judge-cleanings';
import { expectation, type Lending } from './lending';
import { type KnownTrend, pastCycles } from './past-cycles';
import { todaysFigures } from './todays-figures';
import type { UnitTrend } from './unit-trend';
import { type Score, widen } from './widen';

export type TrendInput = {
  exchanger: Exchanger;
  daily: DailyColumns;
  /** Recorded cleanings, ascending; those after `asOf` are left out. */
  cleanings: readonly RecordedCleaning[];
  /** Local days of falls of the fouling of which a person said that they were no cleaning. */
  explainedFalls?: readonly number[];
  /** "Today" [ms] and its local day of the site. */
  asOf: number;
  todayLocalDay: number;
  horizonDays: number;
  /** What units of like service say; used where no earlier cycle of the unit can tell. */
  likeUnits?: readonly Lending[];
  /** Past projections of the other units of the fleet. */
  fleetRecord?: readonly Score[];
  /** What was said of the unit before, where the same datasheet and clean reference still hold. */
  known?: KnownTrend | undefined;
};

/**
 * Everything said of a unit on one day: cycles with their growth, limits with the days they are reached, state, losses,
 * data health, and how past projections did.
 *
 * @param input unit, its daily figures and cleanings up to today, horizon [days], what other units say
 * @returns the trend in SI units and local days; what cannot be said is null
 * @range  any amount of data, none included
 * @source METHODS §7 to §10
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function trendUnit(input: TrendInput): UnitTrend {
  const {
    exchanger,
    todayLocalDay,
    horizonDays,
    explainedFalls = [],
    likeUnits = [],
    fleetRecord = [],
  } = input;
  const asEvaluated = upToLocalDay(input.daily, todayLocalDay);
  const cleanings = input.cleanings.filter(({ at }) => at <= input.asOf);
  const dependence = flowDependence(exchanger, asEvaluated, splitCycles(asEvaluated, cleanings));
  const daily = {
    ...withoutFlowDependence(asEvaluated, dependence),
    lostDuty: dutyLost(exchanger, asEvaluated),
  };
  const allowance = allowanceOf(exchanger, daily);
  const { spans, probableCleanings } = cycleSpans(daily, { cleanings, allowance, explainedFalls });
  const running = spans.at(-1) ?? null;
  const ended = spans.slice(0, -1);
  const past = pastCycles({
    exchanger,
    daily,
    spans: ended,
    horizonDays,
    known: input.known,
  });
  const { expected, borrowed } = expectation(past.lending, likeUnits);
  const widening = widen(past.record, [...fleetRecord, ...past.record]);
  const fitted = running === null ? null : cycleGrowth(daily, running, { expected, clean: exchanger.clean });
  const growth = fitted === null ? null : { ...fitted, widening: widening.factor };
  const cycles = spans.map((span, index) =>
    describeCycle(daily, span, index < ended.length ? past.growths[index]! : growth),
  );
  const cleaningResults = judgeCleanings(exchanger, daily, { spans, cycles });
  return {
    ...todaysFigures({
      exchanger,
      daily,
      cycle: running,
      ended,
      growth,
      cycles,
      cleaningResults,
      lending: past.lending,
      todayLocalDay,
      horizonDays,
    }),
    lastReading: lastAccepted(daily),
    cycles,
    growth,
    horizonDays,
    ...losses(daily, spans, todayLocalDay),
    probableCleanings,
    cleaningResults,
    record: past.record,
    lending: past.lending,
    widening,
    borrowed,
    flowDependence: dependence,
    health: dataHealth(daily, todayLocalDay),
  };
}

function lastAccepted({ lastAccepted: instants }: DailyColumns): number | null {
  return instants.findLast((at) => !Number.isNaN(at)) ?? null;
}
