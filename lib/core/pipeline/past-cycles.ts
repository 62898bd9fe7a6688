import { rowsWithFigures } from '../cycles/rows-with-figures';
import type { Exchanger } from '../exchange/exchanger';
import type { DailyColumns } from '../series/daily-columns';
import { upToLocalDay } from '../series/slice-daily';
import { allowanceOf } from './allowance';
import { cycleFigures, cycleGrowth, cycleSystematic } from './cycle-growth';
import type { BegunSpan } from './cycle-spans';
import { describeCycle } from './describe-cycle';
import { hindcasts } from './hindcast';
import { type EndedCycle, endedCycle, expectation, type Lending, lendingOf } from './lending';
import { endedStand, type KnownTrend, type LastingParts } from './standing';
import type { Hindcast, UnitTrend } from './unit-trend';

/** Ended cycles whose growth is worked out: older ones say little of today's service [-] (own choice). */
const FITTED_PAST_CYCLES = 12;

export type PastInput = {
  exchanger: Exchanger;
  daily: DailyColumns;
  /** Every ended cycle, the oldest first. */
  spans: readonly BegunSpan[];
  horizonDays: number;
  /** What was said of the unit before; its ended cycles stand where nothing changed in them. */
  known?: KnownTrend | undefined;
};

/** What the ended cycles of a unit were, what they say of the next, and how projections of them would have done. */
export type PastCycles = Pick<UnitTrend, 'cycles' | 'lending' | 'record'>;

/**
 * Goes through the ended cycles from the oldest on: each is projected with what those before it led to expect, then fitted
 * whole, and joins them.
 *
 * @param input unit, daily figures, ended cycles, horizon [days]
 * @returns each cycle (growth null: too old, or without figures), what they lend, record of projections
 * @range  any
 * @source METHODS §9
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function pastCycles(input: PastInput): PastCycles {
  const { exchanger, daily, spans, horizonDays } = input;
  if (input.known !== undefined && endedStand(input.known, spans)) return endedOf(input.known.trend);
  const ended: EndedCycle[] = [];
  const record: Hindcast[] = [];
  let lending: Lending | null = null;
  const growths = spans.map((span, index) => {
    if (index < spans.length - FITTED_PAST_CYCLES) return null;
    const figures = cycleFigures(daily, span);
    const growth = cycleGrowth(daily, span, { expected: {}, clean: exchanger.clean });
    if (figures === null || growth === null) return null;
    const cycle = endedCycle(figures, growth);
    if (cycle === null) return growth;
    const { expected } = expectation(lending);
    // By the conditions at its end, so that what is said of it does not change with today's.
    const allowance = allowanceOf(exchanger, upToLocalDay(daily, span.endDay));
    const systematic = cycleSystematic(daily, rowsWithFigures(daily, span), exchanger.clean);
    record.push(...hindcasts({ daily, span, whole: growth, systematic, expected, allowance, horizonDays }));
    ended.push(cycle);
    lending = lendingOf(ended);
    return growth;
  });
  const cycles = spans.map((span, index) => describeCycle(daily, span, growths[index]!));
  return { cycles, lending, record };
}

function endedOf({ cycles, lending, record }: LastingParts): PastCycles {
  return { cycles: cycles.slice(0, -1), lending, record };
}
