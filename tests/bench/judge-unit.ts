import { DEFAULT_HORIZON_DAYS } from '@/lib/core/pipeline/method-version';
import type { KnownTrend } from '@/lib/core/pipeline/standing';
import { trendUnit } from '@/lib/core/pipeline/trend-unit';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { SimulatedUnit } from './simulate-unit';
import type { Question, SimulatedCycle } from './simulated-cycles';

/** One projection beside the truth; days are local days. */
export type Judgement = Pick<
  SimulatedCycle,
  'mechanism' | 'hasChanged' | 'earlier' | 'truthDay' | 'seenDay' | 'lifeDays'
> &
  Pick<Question, 'shareOfLife' | 'today' | 'lineDay'> & {
    scenario: SimulatedUnit['key']['scenario'];
    unit: number;
    clean: 'datasheet' | 'test' | 'learned';
    /** Null where not within the horizon; `withinHorizon` null where the product says that it cannot say. */
    p10Day: number | null;
    p50Day: number | null;
    p90Day: number | null;
    withinHorizon: number | null;
  };

/** Puts every question of a unit to the product and sets the answers beside the truth and the straight line. */
export function judgeUnit(unit: SimulatedUnit): Judgement[] {
  return unit.cycles.flatMap((cycle) => judgeCycle(unit, cycle));
}

function judgeCycle(unit: SimulatedUnit, cycle: SimulatedCycle): Judgement[] {
  const { mechanism, hasChanged, earlier, truthDay, seenDay, lifeDays } = cycle;
  const about = { scenario: unit.key.scenario, unit: unit.key.index, clean: unit.exchanger.clean };
  // As in the product, what was said of ended cycles stands while only later days are new.
  let known: KnownTrend | undefined;
  return cycle.questions.map((question) => {
    const { shareOfLife, today, lineDay } = question;
    const trend = trendAt(unit, question, known);
    known = { trend, changedSinceDay: today + 1 };
    const { p10Day, p50Day, p90Day, withinHorizon } = trend.limits[trend.governing ?? 0]!;
    return {
      ...about,
      ...{ mechanism, hasChanged, earlier, truthDay, seenDay, lifeDays },
      ...{ shareOfLife, today, lineDay },
      ...{ p10Day, p50Day, p90Day, withinHorizon },
    };
  });
}

/** What the product says at the end of a day, of what was known then: the only call of it. */
function trendAt(unit: SimulatedUnit, { asOf, today }: Question, known: KnownTrend | undefined): UnitTrend {
  const { exchanger, daily, cleanings } = unit;
  return trendUnit({
    exchanger,
    daily,
    cleanings,
    asOf,
    todayLocalDay: today,
    horizonDays: DEFAULT_HORIZON_DAYS,
    known,
  });
}
