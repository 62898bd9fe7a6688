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
import { type FlowDependence, flowDependence, withoutFlowDependence } from './flow-dependence';
import { judgeCleanings } from './judge-cleanings';
import { type Expectation, expectation } from './lending';
import { pastCycles } from './past-cycles';
import { type KnownTrend, recordedStand } from './standing';
import { todaysFigures } from './todays-figures';
import type { UnitTrend } from './unit-trend';
import { type FleetRecord, NO_RECORD, widen } from './widen';

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
  /** What units of like service lead to expect; used where no earlier cycle of the unit can tell. */
  like?: Expectation;
  /** Past projections of the fleet. */
  fleet?: FleetRecord;
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
  const { exchanger, todayLocalDay, horizonDays, explainedFalls = [] } = input;
  const asEvaluated = upToLocalDay(input.daily, todayLocalDay);
  const cleanings = input.cleanings.filter(({ at }) => at <= input.asOf);
  const { dependence, known } = dependenceOf(input, { daily: asEvaluated, cleanings });
  const daily = {
    ...withoutFlowDependence(asEvaluated, dependence),
    lostDuty: dutyLost(exchanger, asEvaluated),
  };
  const allowance = allowanceOf(exchanger, daily);
  const { spans, probableCleanings, searches } = cycleSpans(daily, {
    cleanings,
    allowance,
    explainedFalls,
    known: known && { searches: known.trend.searches ?? [], changedSinceDay: known.changedSinceDay },
  });
  const running = spans.at(-1) ?? null;
  const ended = spans.slice(0, -1);
  const past = pastCycles({ exchanger, daily, spans: ended, horizonDays, known });
  const { expected, borrowed } = expectation(past.lending, input.like);
  const widening = widen(
    past.record.map(({ score }) => score),
    input.fleet ?? NO_RECORD,
  );
  const fitted = running === null ? null : cycleGrowth(daily, running, { expected, clean: exchanger.clean });
  const growth = fitted === null ? null : { ...fitted, widening: widening.factor };
  const cycles = running === null ? [] : [...past.cycles, describeCycle(daily, running, growth)];
  const cleaningResults = judgeCleanings(exchanger, daily, { spans, cycles, known });
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
    searches,
    cleaningResults,
    record: past.record,
    lending: past.lending,
    widening,
    borrowed,
    flowDependence: dependence,
    health: dataHealth(daily, todayLocalDay),
  };
}

/** What of the figures follows the flows, and what is known besides where that is still the same. */
function dependenceOf(
  { exchanger, known }: TrendInput,
  { daily, cleanings }: { daily: DailyColumns; cleanings: readonly RecordedCleaning[] },
): { dependence: FlowDependence | null; known: KnownTrend | undefined } {
  const recorded = splitCycles(daily, cleanings);
  const before = known !== undefined && recordedStand(known, recorded) ? known : undefined;
  const dependence = flowDependence(
    exchanger,
    daily,
    recorded,
    before && { dependence: before.trend.flowDependence },
  );
  const isSame = JSON.stringify(dependence) === JSON.stringify(known?.trend.flowDependence);
  // Figures that are taken otherwise are other figures, however old.
  return { dependence, known: isSame ? known : undefined };
}

function lastAccepted({ lastAccepted: instants }: DailyColumns): number | null {
  return instants.findLast((at) => !Number.isNaN(at)) ?? null;
}
