import { growthValue } from '@/lib/core/growth/forms';
import type { FittedModel } from '@/lib/core/growth/growth';
import type { GrowthPlan } from './unit-plan';

/** A growth model with its true parameters, named as the fits name them. */
export type TrueGrowth = Pick<FittedModel, 'name' | 'parameters'>;

/** True parameters of a planned growth: `limit` and `r0` (left by the last cleaning) in m²·K/W. */
export function trueGrowth(plan: GrowthPlan, limit: number, r0: number): TrueGrowth {
  switch (plan.kind) {
    case 'none':
      return { name: plan.kind, parameters: { r0 } };
    case 'linear':
      return { name: plan.kind, parameters: { r0, rate: limit / plan.limitAtDays } };
    case 'delayed-linear':
      return {
        name: plan.kind,
        parameters: { r0, rate: limit / (plan.limitAtDays - plan.delayDays), delay: plan.delayDays },
      };
    case 'falling-rate':
      return {
        name: plan.kind,
        parameters: { r0, coefficient: limit / plan.limitAtDays ** plan.exponent, exponent: plan.exponent },
      };
    case 'asymptotic':
      return {
        name: plan.kind,
        parameters: { r0, asymptote: limit * plan.asymptoteShare, timeConstant: plan.timeConstantDays },
      };
  }
}

/** Age at which a growth reaches the limit [days], by the inverse of its form; null where it never does. */
export function crossingAge(growth: TrueGrowth, limit: number): number | null {
  const { r0, rate, delay, coefficient, exponent, asymptote, timeConstant } = growth.parameters;
  const needed = limit - r0!;
  if (needed <= 0) return 0;
  switch (growth.name) {
    case 'none':
      return null;
    case 'linear':
      return needed / rate!;
    case 'delayed-linear':
      return delay! + needed / rate!;
    case 'falling-rate':
      return (needed / coefficient!) ** (1 / exponent!);
    case 'asymptotic':
      return needed >= asymptote! ? null : -timeConstant! * Math.log1p(-needed / asymptote!);
  }
}

/** True fouling at an age [m²·K/W]. */
export function trueFouling(growth: TrueGrowth, ageDays: number): number {
  return growthValue(growth, ageDays);
}
