import { toExchanger } from '@/lib/contract/exchanger-from-unit';
import type { Unit } from '@/lib/contract/fleet-file';
import { type ForwardModel, makeForwardModel } from './forward-model';
import { MS_PER_DAY, shiftStart } from './true-cycles';
import type { UnitPlan } from './unit-plan';

/** A datasheet and the instant since when it holds [ms]; null = from the beginning. */
export type DatedDatasheet = { from: number | null; unit: Unit };
/** A unit as it truly is since an instant [ms]. */
export type DatedModel = { from: number; model: ForwardModel };

/** Every datasheet of a planned unit whose record ends at `end` [ms], the oldest first. */
export function datedDatasheets({ unit, earlier, utcOffsetHours }: UnitPlan, end: number): DatedDatasheet[] {
  const units = [...earlier.map((before) => before.unit), unit];
  return units.map((stated, index) => {
    const before = earlier[index - 1];
    const from =
      before === undefined ? null : shiftStart(end - before.untilDaysAgo * MS_PER_DAY, utcOffsetHours);
    return { from, unit: stated };
  });
}

/** The unit as it truly is, by each of its datasheets in turn. */
export function datedModels(plan: UnitPlan, end: number): DatedModel[] {
  const { cleanScale, trueFilms } = plan;
  return datedDatasheets(plan, end).map(({ from, unit }) => ({
    from: from ?? Number.NEGATIVE_INFINITY,
    model: makeForwardModel(toExchanger(unit), { cleanScale, films: trueFilms }),
  }));
}

/** The model that holds at an instant [ms]. */
export function modelAt(models: readonly DatedModel[], at: number): ForwardModel {
  return models.findLast(({ from }) => from <= at)!.model;
}
