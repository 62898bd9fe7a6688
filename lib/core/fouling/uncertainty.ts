import { NONE_INFERRED } from './complete-state';
import { type Rated, writeSensitivities } from './sensitivities';
import { PLACE, type UnitModel } from './unit-model';

/**
 * Standard uncertainties of duty, U and Rf by first-order propagation from the sensors, and the systematic part of u(Rf).
 *
 * Closing the balance moves every value, so the sensitivity to a sensor is that of the result through the reconciled (or
 * inferred) state: s = f − λ·g with g the gradient of the balance and λ = Σf·V·g/Σg·V·g, or f/g of the inferred sensor.
 * A temperature counts with all it does: to the rates, to the clean films and to the density at a volume meter. The clean
 * reference itself counts as known, as do fluid properties at a temperature.
 *
 * @param model the unit
 * @param rated the row and what was found about it
 * @returns nothing; the row's four uncertainties are written [W, W/(m²·K), m²·K/W]
 * @range  small errors: first order
 * @source JCGM 100:2008 (GUM) eq. 10; constraint as in Romagnoli & Sánchez, Data Processing and Reconciliation, 2000, ch. 5
 * @check  tests/core/fouling/uncertainty.test.ts (Monte Carlo)
 */
export function propagate(model: UnitModel, rated: Rated): void {
  const { columns, i, sensitivities } = rated;
  writeSensitivities(model, rated);
  const { duty, logU, fouling } = sensitivities;
  columns.dutyUncertainty[i] = Math.sqrt(varianceOf(model, rated, duty, false));
  columns.overallUUncertainty[i] = columns.overallU[i]! * Math.sqrt(varianceOf(model, rated, logU, false));
  columns.foulingResistanceUncertainty[i] = Math.sqrt(varianceOf(model, rated, fouling, false));
  columns.foulingResistanceSystematic[i] = Math.sqrt(varianceOf(model, rated, fouling, true));
}

/** Σ s²·V over the sensors, each weighted by its systematic share where asked. */
function varianceOf(
  { sensors }: UnitModel,
  rated: Rated,
  sensitivity: Float64Array,
  isSystematic: boolean,
): number {
  const multiplier = constraintMultiplier(rated, sensitivity);
  let sum = 0;
  for (let k = 0; k < sensitivity.length; k++) {
    const part = partOf(rated, sensitivity, { k, multiplier });
    sum += isSystematic ? part * part * sensors[k]!.systematicShare : part * part;
  }
  return sum;
}

/**
 * What one standard uncertainty of each sensor does to a result, through the closed balance.
 *
 * @param rated       the row, its sensitivities written
 * @param sensitivity derivatives of the result to the six values of the closed state
 * @returns six parts, in the order of `BALANCE_SENSORS` [unit of the result]; 0 for the inferred one
 * @range  small errors: first order
 * @source JCGM 100:2008 (GUM) eq. 11b
 * @check  tests/core/fouling/uncertainty-budget.test.ts
 */
export function uncertaintyParts(rated: Rated, sensitivity: Float64Array): Float64Array {
  const multiplier = constraintMultiplier(rated, sensitivity);
  return sensitivity.map((_, k) => partOf(rated, sensitivity, { k, multiplier }));
}

function partOf(
  rated: Rated,
  sensitivity: Float64Array,
  { k, multiplier }: { k: number; multiplier: number },
): number {
  if (k === rated.inferred) return 0;
  const { gradient, uncertainty } = rated.buffers;
  return (asRead(rated, sensitivity, k) - multiplier * asRead(rated, gradient, k)) * uncertainty[k]!;
}

/** Derivative to a value as read: a temperature at a volume meter moves the mass flow with it. */
function asRead({ sensitivities }: Rated, slope: Float64Array, k: number): number {
  if (k >= PLACE.hotFlow) return slope[k]!;
  const flow = k < PLACE.coldIn ? PLACE.hotFlow : PLACE.coldFlow;
  return slope[k]! + slope[flow]! * sensitivities.densityPull[k]!;
}

function constraintMultiplier(rated: Rated, sensitivity: Float64Array): number {
  const { gradient, uncertainty } = rated.buffers;
  const { inferred } = rated;
  if (inferred !== NONE_INFERRED) {
    return asRead(rated, sensitivity, inferred) / asRead(rated, gradient, inferred);
  }
  // The reconciliation shares the imbalance out by the sensors' own variances: it knows of no common cause.
  let top = 0;
  let bottom = 0;
  for (let k = 0; k < sensitivity.length; k++) {
    const weighted = gradient[k]! * uncertainty[k]! * uncertainty[k]!;
    top += sensitivity[k]! * weighted;
    bottom += gradient[k]! * weighted;
  }
  return bottom > 0 ? top / bottom : 0;
}
