import { basisAt } from '@/lib/core/fouling/evaluate-over';
import type { EvaluationColumns } from '@/lib/core/fouling/evaluation-columns';
import { type UncertaintyBudget, uncertaintyBudget } from '@/lib/core/fouling/uncertainty-budget';
import { RECENT_FIGURES } from '@/lib/core/pipeline/recent-conditions';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { sliceReadings } from '@/lib/core/series/reading-columns';
import { median } from '@/lib/core/stats/quantile';
import type { UnitRecords } from '@/lib/report/records';

const DAY_MS = 86_400_000;

/** The budget of the reading that stands for the last two weeks of the shown period. */
export type TypicalBudget = {
  budget: UncertaintyBudget;
  /** Instant of that reading [ms]. */
  time: number;
  /** Accepted readings a day [-], median of the last figures. */
  readingsPerDay: number;
};

/** Null where the shown period holds no accepted reading. */
export function typicalBudget({ bases, readings, evaluation, daily }: UnitRecords): TypicalBudget | null {
  const row = typicalRow(evaluation);
  if (row === null) return null;
  const time = evaluation.time[row]!;
  const recent = figureRows(daily).slice(-RECENT_FIGURES);
  const readingsPerDay =
    recent.length === 0 ? 1 : Math.max(1, median(recent.map((day) => daily.accepted[day]!)));
  const scatter = recent.length === 0 ? 0 : median(recent.map((day) => daily.foulingResistanceScatter[day]!));
  const budget = uncertaintyBudget({
    ...basisAt(bases, time),
    reading: sliceReadings(readings, row, row + 1),
    readingsPerDay,
    scatter,
  });
  return budget === null ? null : { budget, time, readingsPerDay };
}

function figureRows({ foulingResistance }: DailyColumns): number[] {
  return [...foulingResistance.keys()].filter((day) => Number.isFinite(foulingResistance[day]!));
}

/**
 * A real reading, so that it can be worked out by hand: of those accepted in the last two weeks with the sensors most of them
 * have, the one whose u(Rf) is the median.
 */
function typicalRow(evaluation: EvaluationColumns): number | null {
  const { time, reasons, foulingResistanceUncertainty: spread } = evaluation;
  const last = time.findLastIndex((_, i) => reasons[i] === 0);
  if (last < 0) return null;
  const bySensors = new Map<number, number[]>();
  for (let i = last; i >= 0 && time[i]! > time[last]! - RECENT_FIGURES * DAY_MS; i--) {
    if (reasons[i] !== 0) continue;
    const sensors = evaluation.inferred[i]! | (evaluation.nominal[i]! << 8);
    bySensors.set(sensors, [...(bySensors.get(sensors) ?? []), i]);
  }
  const rows = [...bySensors.values()].reduce((most, one) => (one.length > most.length ? one : most));
  const ordered = rows.sort((a, b) => spread[a]! - spread[b]!);
  return ordered[Math.floor(ordered.length / 2)]!;
}
