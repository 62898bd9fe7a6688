import {
  type CycleCost,
  linearOptimumCycle,
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

type Loss = { source: SourceName; rate: (p: Inputs) => CycleCost['lossRate'] };
const linearLoss = (p: Inputs) => (t: number) => p.loss_growth_per_day_per_day! * t;
const asymptoticLoss = (p: Inputs) => (t: number) => p.L! * -Math.expm1(-t / p.tau!);

/** Loss rates of the tabulated cases, each as a function of age. */
export const LOSSES: Record<string, Loss> = {
  'linear-loss-no-outage': { source: 'reference set', rate: linearLoss },
  'linear-loss-with-outage': { source: 'reference set', rate: linearLoss },
  'linear-loss-with-outage-and-downtime': { source: 'reference set', rate: linearLoss },
  'asymptotic-loss': { source: 'Casado 1990', rate: asymptoticLoss },
  'asymptotic-loss-never-clean': { source: 'Casado 1990', rate: asymptoticLoss },
  'power-loss': { source: 'reference set', rate: (p) => (t) => p.k! * t ** p.n! },
  'delayed-linear-loss': { source: 'reference set', rate: (p) => (t) => p.k! * Math.max(0, t - p.td!) },
  'throughput-linear-fouling': {
    source: 'Ma & Epstein 1981',
    rate: (p) => (t) => p.Uc_W_m2K! - p.Uc_W_m2K! / (1 + p.Uc_W_m2K! * p.b_m2K_per_W_per_day! * t),
  },
  'money-asymptotic-fouling': {
    source: 'Casado 1990',
    rate: (p) => (t) => {
      const u = 1 / (1 / p.Uc_W_m2K! + p.R_star! * -Math.expm1(-t / p.tau_days!));
      const lostKilowatt = ((p.Uc_W_m2K! - u) * p.area_m2! * p.mean_temperature_difference_K!) / 1000;
      return lostKilowatt * 24 * p.price_per_kWh!;
    },
  },
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
    lossRate: LOSSES[id]!.rate(p),
  };
}

const FILE = relative(1e-7, 'the file');
/** Printed 48.62252; quadrature to 1e-13 gives 48.6225146, so that its last digit is one too high. */
const LAST_DIGIT = relative(2e-7, 'the last digit of theirs is one too high');
const SEVEN_DIGITS = relative(5e-7, 'seven digits given');

type Figure = Pick<Check, 'quantity' | 'unit' | 'rows' | 'isIterated'> & Partial<Pick<Check, 'tolerance'>>;

function figuresOf(one: OptimumCase): Figure[] {
  const cost = costOf(one.id);
  const optimum = optimumCycle(cost);
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

function closedForm(one: OptimumCase): Figure[] {
  const lossGrowth = one.inputs.loss_growth_per_day_per_day;
  if (lossGrowth === undefined) return [];
  const optimum = linearOptimumCycle({ ...costOf(one.id), lossGrowth });
  return [
    {
      quantity: 'best cycle, closed form',
      unit: 'days',
      rows: [{ at: '', theirs: one.T_opt!, ours: optimum.cycleDays }],
    },
    {
      quantity: 'least mean cost, closed form',
      unit: 'money/day',
      rows: [{ at: '', theirs: one.mean_cost!, ours: optimum.meanCost }],
    },
  ];
}

function nearOptimum(one: OptimumCase): Figure[] {
  if (one.cost_within_5_percent_from === undefined) return [];
  const cost = costOf(one.id);
  const near = nearOptimumCycles(cost, optimumCycle(cost), { share: 0.05 })!;
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
          ours: cost.lossRate(optimumCycle(cost).cycleDays!),
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
    [...figuresOf(one), ...closedForm(one), ...nearOptimum(one), ...wholeCurve(one)].map((figure) => ({
      tolerance: FILE,
      ...figure,
      id: `${one.id}: ${figure.quantity.split(':')[0]}`,
      source: LOSSES[one.id]!.source,
      origin: 'computed' as const,
    })),
  );
}
