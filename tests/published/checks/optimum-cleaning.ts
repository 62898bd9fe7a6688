import {
  type CycleCost,
  type Loss,
  meanCycleCost,
  nearOptimumCycles,
  optimumCycle,
} from '@/lib/core/cost/optimum-cycle';
import { readPublished } from '../../support/published-data';
import type { Check } from './check';
import type { SourceName } from './sources';
import { relative } from './tolerance';

type Inputs = Record<string, number>;
type OptimumCase = {
  id: string;
  inputs: Inputs;
  T_opt?: number | null;
  T_opt_days?: number;
  mean_cost?: number;
  mean_cost_per_day?: number;
  mean_U?: number;
  loss_rate_at_optimum_per_day?: number;
  cost_within_5_percent_from?: number;
  cost_within_5_percent_to?: number;
  curve?: { T_days: number[]; mean_cost_per_day: number[] };
};

export const optimumCases = readPublished<{ cases: { optimum_cleaning: OptimumCase[] } }>('fouling-models')
  .cases.optimum_cleaning;

/** A case of the file by its id. */
export const optimumCase = (id: string): OptimumCase => optimumCases.find((one) => one.id === id)!;

/** Longest cycle considered [days]; trial cycles evenly in the logarithm from 1/10,000 of it. */
export const LATEST_DAYS = 3650;
export const TRIAL_DAYS = Array.from({ length: 241 }, (_, i) => LATEST_DAYS * 1e-4 ** (1 - i / 240));

type TabulatedLoss = { source: SourceName; loss: (p: Inputs) => Loss };
const linearLoss = (p: Inputs): Loss => ({
  rateAt: (t) => p.loss_growth_per_day_per_day! * t,
  until: (t) => (p.loss_growth_per_day_per_day! * t * t) / 2,
});
const asymptoticLoss = (p: Inputs): Loss => ({
  rateAt: (t) => p.L! * -Math.expm1(-t / p.tau!),
  until: (t) => p.L! * (t + p.tau! * Math.expm1(-t / p.tau!)),
});
const powerLoss = (p: Inputs): Loss => ({
  rateAt: (t) => p.k! * t ** p.n!,
  until: (t) => (p.k! * t ** (p.n! + 1)) / (p.n! + 1),
});
const delayedLoss = (p: Inputs): Loss => ({
  rateAt: (t) => p.k! * Math.max(0, t - p.td!),
  until: (t) => (p.k! * Math.max(0, t - p.td!) ** 2) / 2,
});
/** ∫ U₀ − U₀/(1 + U₀bt) dt. */
const throughputLoss = (p: Inputs): Loss => {
  const [u, growth] = [p.Uc_W_m2K!, p.Uc_W_m2K! * p.b_m2K_per_W_per_day!];
  return {
    rateAt: (t) => u - u / (1 + growth * t),
    until: (t) => u * t - (u / growth) * Math.log1p(growth * t),
  };
};
/** ∫ Uc − 1/(a − R*·e^(−t/τ)) dt with a = 1/Uc + R*. */
const moneyLoss = (p: Inputs): Loss => {
  const [u, r, tau] = [p.Uc_W_m2K!, p.R_star!, p.tau_days!];
  const a = 1 / u + r;
  const moneyPerConductance = (p.area_m2! * p.mean_temperature_difference_K! * 24 * p.price_per_kWh!) / 1000;
  return {
    rateAt: (t) => moneyPerConductance * (u - 1 / (a - r * Math.exp(-t / tau))),
    until: (t) =>
      moneyPerConductance * (u * t - (tau / a) * (t / tau + Math.log((a - r * Math.exp(-t / tau)) * u))),
  };
};

/** Loss rates of the tabulated cases with their integrals, each as a function of age. */
export const LOSSES: Record<string, TabulatedLoss> = {
  'linear-loss-no-outage': { source: 'reference set', loss: linearLoss },
  'linear-loss-with-outage': { source: 'reference set', loss: linearLoss },
  'linear-loss-with-outage-and-downtime': { source: 'reference set', loss: linearLoss },
  'asymptotic-loss': { source: 'Casado 1990', loss: asymptoticLoss },
  'asymptotic-loss-never-clean': { source: 'Casado 1990', loss: asymptoticLoss },
  'power-loss': { source: 'reference set', loss: powerLoss },
  'delayed-linear-loss': { source: 'reference set', loss: delayedLoss },
  'throughput-linear-fouling': { source: 'Ma & Epstein 1981', loss: throughputLoss },
  'money-asymptotic-fouling': { source: 'Casado 1990', loss: moneyLoss },
};

/** What a cycle of a tabulated case costs. */
export function costOf(id: string): CycleCost {
  const p = optimumCase(id).inputs;
  const outageDays = p.outage_days ?? p.cleaning_days ?? 0;
  // While a unit is out, the whole clean throughput is lost: that is the downtime of the throughput case.
  const downtimePerDay = p.downtime_cost_per_day ?? (id === 'throughput-linear-fouling' ? p.Uc_W_m2K! : 0);
  return {
    cleaningCost: p.cleaning_cost ?? 0,
    downtimeCost: downtimePerDay * outageDays,
    outageDays,
    daysSoFar: 0,
    lossSoFar: 0,
    loss: LOSSES[id]!.loss(p),
  };
}

const FILE = relative(1e-7, 'the file');
/** Printed 48.62252; quadrature to 1e-13 gives 48.6225146, so that its last digit is one too high. */
const LAST_DIGIT = relative(2e-7, 'the last digit of theirs is one too high');
const SEVEN_DIGITS = relative(5e-7, 'seven digits given');

type Figure = Pick<Check, 'quantity' | 'unit' | 'rows' | 'isIterated'> & Partial<Pick<Check, 'tolerance'>>;

function figuresOf(one: OptimumCase): Figure[] {
  const cost = costOf(one.id);
  const optimum = optimumCycle(cost, TRIAL_DAYS);
  const days = one.T_opt_days ?? one.T_opt ?? null;
  const list: Figure[] = [
    {
      quantity: days === null ? 'best cycle: cleaning never pays, no number' : 'best cycle',
      unit: 'days',
      rows: [{ at: '', theirs: days, ours: optimum.cycleDays }],
      ...(one.id === 'money-asymptotic-fouling' ? { tolerance: LAST_DIGIT } : { isIterated: true }),
    },
  ];
  const meanCost = one.mean_cost ?? one.mean_cost_per_day;
  if (meanCost !== undefined) {
    list.push({
      quantity: 'least mean cost',
      unit: 'money/day',
      rows: [{ at: '', theirs: meanCost, ours: optimum.meanCost }],
    });
  }
  if (one.mean_U !== undefined) {
    list.push({
      quantity: 'mean conductance over the best cycle',
      unit: 'W/(m²·K)',
      rows: [{ at: '', theirs: one.mean_U, ours: one.inputs.Uc_W_m2K! - optimum.meanCost }],
    });
  }
  return list;
}

function nearOptimum(one: OptimumCase): Figure[] {
  if (one.cost_within_5_percent_from === undefined) return [];
  const cost = costOf(one.id);
  const near = nearOptimumCycles(cost, optimumCycle(cost, TRIAL_DAYS), {
    share: 0.05,
    latestDays: LATEST_DAYS,
  })!;
  return [
    {
      quantity: 'cycles within 5 % of the least mean cost',
      unit: 'days',
      rows: [
        { at: 'shortest', theirs: one.cost_within_5_percent_from, ours: near.from },
        { at: 'longest', theirs: one.cost_within_5_percent_to!, ours: near.to },
      ],
    },
  ];
}

function wholeCurve(one: OptimumCase): Figure[] {
  const { curve } = one;
  if (!curve) return [];
  const cost = costOf(one.id);
  return [
    {
      quantity: 'loss rate at the optimum, which is the mean cost',
      unit: 'money/day',
      tolerance: SEVEN_DIGITS,
      rows: [
        {
          at: '',
          theirs: one.loss_rate_at_optimum_per_day!,
          ours: cost.loss.rateAt(optimumCycle(cost, TRIAL_DAYS).cycleDays!),
        },
      ],
    },
    {
      quantity: 'mean cost over cycle length',
      unit: 'money/day',
      tolerance: SEVEN_DIGITS,
      rows: curve.T_days.map((days, i) => ({
        at: `${days} days`,
        theirs: curve.mean_cost_per_day[i]!,
        ours: meanCycleCost(cost, days),
      })),
    },
  ];
}

export function optimumCleaningChecks(): Check[] {
  return optimumCases.flatMap((one) =>
    [...figuresOf(one), ...nearOptimum(one), ...wholeCurve(one)].map((figure) => ({
      tolerance: FILE,
      ...figure,
      id: `${one.id}: ${figure.quantity.split(':')[0]}`,
      source: LOSSES[one.id]!.source,
      origin: 'computed' as const,
    })),
  );
}
