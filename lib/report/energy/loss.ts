import type { Loss, UncertainLoss } from '@/lib/contract/costs';
import { purchasedEnergy } from '@/lib/core/cost/purchased-energy';

export const NO_LOSS: Loss = {
  energyLost: null,
  pumping: null,
  energyBought: null,
  money: null,
  carbon: null,
  days: 0,
  bridgedDays: 0,
  unpricedDays: 0,
  unpricedPumpingDays: 0,
};

export const NO_UNCERTAIN_LOSS: UncertainLoss = {
  ...NO_LOSS,
  energyLostUncertainty: null,
  energyBoughtUncertainty: null,
  moneyUncertainty: null,
};

/** Losses of several units together: what one cannot tell is left out, and null where none can. */
export function sumOfLosses(losses: readonly Loss[]): Loss {
  return {
    energyLost: sum(losses.map(({ energyLost }) => energyLost)),
    pumping: sum(losses.map(({ pumping }) => pumping)),
    energyBought: sum(losses.map(({ energyBought }) => energyBought)),
    money: sum(losses.map(({ money }) => money)),
    carbon: sum(losses.map(({ carbon }) => carbon)),
    days: sum(losses.map(({ days }) => days)) ?? 0,
    bridgedDays: sum(losses.map(({ bridgedDays }) => bridgedDays)) ?? 0,
    unpricedDays: sum(losses.map(({ unpricedDays }) => unpricedDays)) ?? 0,
    unpricedPumpingDays: sum(losses.map(({ unpricedPumpingDays }) => unpricedPumpingDays)) ?? 0,
  };
}

/** The same with its standard uncertainty: errors of two units are taken as independent. */
export function sumWithUncertainty(losses: readonly UncertainLoss[]): UncertainLoss {
  return {
    ...sumOfLosses(losses),
    energyLostUncertainty: rootSumSquare(losses.map(({ energyLostUncertainty }) => energyLostUncertainty)),
    energyBoughtUncertainty: rootSumSquare(
      losses.map(({ energyBoughtUncertainty }) => energyBoughtUncertainty),
    ),
    moneyUncertainty: rootSumSquare(losses.map(({ moneyUncertainty }) => moneyUncertainty)),
  };
}

/**
 * Energy bought because of fouling [J]: lost heat over the efficiency or COP of what supplies it, and pumping; null where
 * neither is known.
 */
export function energyBought(
  { energyLost, pumping }: Pick<Loss, 'energyLost' | 'pumping'>,
  efficiency: number,
) {
  return sum([energyLost === null ? null : purchasedEnergy(energyLost, efficiency), pumping]);
}

function sum(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : known.reduce((total, value) => total + value, 0);
}

function rootSumSquare(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : Math.hypot(...known);
}
