import type { JudgedPeriod } from '@/lib/core/checks/judged-period';
import {
  EXPONENT_DAYS,
  type LearnedExponent,
  learnPressureExponent,
} from '@/lib/core/clean/learn-pressure-exponent';
import type { Side } from '@/lib/core/exchange/exchanger';
import { type Basis, basisAt, evaluateOver } from '@/lib/core/fouling/evaluate-over';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { DAY_MS } from '@/lib/time/calendar-day';

/** The newest cleanings that may teach an exponent [-]: older ones say little of today's unit (own choice). */
const CLEANINGS_TRIED = 3;
/** A unit may stand this long after its cleaning before it runs [d] (own choice). */
const STANDING_DAYS = 5;

export type ExponentsInput = {
  readReadings: (from: number, to: number) => Promise<ReadingColumns>;
  bases: readonly Basis[];
  daily: DailyColumns;
  /** Instants of the recorded cleanings [ms], ascending. */
  cleanings: readonly number[];
  nominal: number | undefined;
  judged: readonly JudgedPeriod[];
};

/**
 * The exponent of pressure drop on flow of each side that measures one, from the newest cleaning after which the flow
 * varied enough; where none did, what the newest one with readings says.
 */
export async function learnPressureExponents(
  input: ExponentsInput,
): Promise<Record<Side, LearnedExponent | null>> {
  const learned: Record<Side, LearnedExponent | null> = { hot: null, cold: null };
  const sides = (['hot', 'cold'] as const).filter((side) =>
    input.daily[`${side}PressureDrop`].some((value) => value > 0),
  );
  const starts = input.cleanings.slice(-CLEANINGS_TRIED).reverse();
  for (const [index, start] of starts.entries()) {
    const open = sides.filter((side) => learned[side]?.isIdentifiable !== true);
    if (open.length === 0) break;
    const next = index === 0 ? Number.POSITIVE_INFINITY : starts[index - 1]!;
    const found = await learnAfter(input, { start, next, sides: open });
    for (const side of open)
      if (found[side]?.isIdentifiable || learned[side] === null) learned[side] = found[side] ?? null;
  }
  return learned;
}

async function learnAfter(
  { readReadings, bases, nominal, judged }: ExponentsInput,
  { start, next, sides }: { start: number; next: number; sides: Side[] },
): Promise<Partial<Record<Side, LearnedExponent | null>>> {
  const readings = await readReadings(
    start,
    Math.min(next, start + (EXPONENT_DAYS + STANDING_DAYS) * DAY_MS),
  );
  const evaluation = evaluateOver(bases, readings, { nominal, judged });
  const { exchanger } = basisAt(bases, start);
  return Object.fromEntries(
    sides.map((side) => [side, learnPressureExponent({ evaluation, readings, exchanger, side, start })]),
  );
}
