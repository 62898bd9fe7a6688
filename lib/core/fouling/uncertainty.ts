import { NONE_INFERRED } from './complete-state';
import type { Rated } from './sensitivities';
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
 * @param rated the row and what was found about it, its sensitivities written (`writeSensitivities`)
 * @returns nothing; the row's four uncertainties are written [W, W/(m²·K), m²·K/W]
 * @range  small errors: first order
 * @source JCGM 100:2008 (GUM) eq. 10; constraint as in Romagnoli & Sánchez, Data Processing and Reconciliation, 2000, ch. 5
 * @check  tests/core/fouling/uncertainty.test.ts (Monte Carlo)
 */
export function propagate(model: UnitModel, rated: Rated): void {
  const { columns, i, sensitivities } = rated;
  const { duty, logU, fouling } = sensitivities;
  writeConstraint(rated);
  writeVariances(model, rated, duty);
  columns.dutyUncertainty[i] = Math.sqrt(VARIANCES[WHOLE]!);
  writeVariances(model, rated, logU);
  columns.overallUUncertainty[i] = columns.overallU[i]! * Math.sqrt(VARIANCES[WHOLE]!);
  writeVariances(model, rated, fouling);
  columns.foulingResistanceUncertainty[i] = Math.sqrt(VARIANCES[WHOLE]!);
  columns.foulingResistanceSystematic[i] = Math.sqrt(VARIANCES[SYSTEMATIC]!);
}

/** Σ s²·V over the sensors, and the same with each weighted by its systematic share, of one result only. */
const VARIANCES = new Float64Array(2);
const WHOLE = 0;
const SYSTEMATIC = 1;

/** What the closed balance does to every result of one reading: the gradient as read, and V·g with its sum g·V·g at `SUM`. */
const AS_READ_GRADIENT = new Float64Array(6);
const WEIGHTED = new Float64Array(7);
const SUM = 6;

/** Worked out once for a reading, for all its results. */
function writeConstraint({ buffers, sensitivities }: Rated): void {
  const { gradient, uncertainty } = buffers;
  const { densityPull } = sensitivities;
  let sum = 0;
  for (let k = 0; k < SUM; k++) {
    const weighted = gradient[k]! * uncertainty[k]! * uncertainty[k]!;
    WEIGHTED[k] = weighted;
    sum += gradient[k]! * weighted;
    AS_READ_GRADIENT[k] = asRead(densityPull, gradient, k);
  }
  WEIGHTED[SUM] = sum;
}

function writeVariances({ sensors }: UnitModel, rated: Rated, sensitivity: Float64Array): void {
  const multiplier = constraintMultiplier(rated, sensitivity);
  const { uncertainty } = rated.buffers;
  const { densityPull } = rated.sensitivities;
  const { inferred } = rated;
  let whole = 0;
  let systematic = 0;
  for (let k = 0; k < SUM; k++) {
    if (k === inferred) continue;
    const toResult = asRead(densityPull, sensitivity, k);
    const part = (toResult - multiplier * AS_READ_GRADIENT[k]!) * uncertainty[k]!;
    whole += part * part;
    systematic += part * part * sensors[k]!.systematicShare;
  }
  VARIANCES[WHOLE] = whole;
  VARIANCES[SYSTEMATIC] = systematic;
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
  writeConstraint(rated);
  const multiplier = constraintMultiplier(rated, sensitivity);
  const { uncertainty } = rated.buffers;
  const { densityPull } = rated.sensitivities;
  return sensitivity.map((_, k) => {
    if (k === rated.inferred) return 0;
    const toResult = asRead(densityPull, sensitivity, k);
    return (toResult - multiplier * AS_READ_GRADIENT[k]!) * uncertainty[k]!;
  });
}

/** Derivative to a value as read: a temperature at a volume meter moves the mass flow with it. */
function asRead(densityPull: Float64Array, slope: Float64Array, k: number): number {
  if (k >= PLACE.hotFlow) return slope[k]!;
  const flow = k < PLACE.coldIn ? PLACE.hotFlow : PLACE.coldFlow;
  return slope[k]! + slope[flow]! * densityPull[k]!;
}

/** After `writeConstraint` of the same reading. */
function constraintMultiplier({ inferred, sensitivities }: Rated, sensitivity: Float64Array): number {
  if (inferred !== NONE_INFERRED)
    return asRead(sensitivities.densityPull, sensitivity, inferred) / AS_READ_GRADIENT[inferred]!;
  // The reconciliation shares the imbalance out by the sensors' own variances: it knows of no common cause.
  let top = 0;
  for (let k = 0; k < SUM; k++) top += sensitivity[k]! * WEIGHTED[k]!;
  const bottom = WEIGHTED[SUM]!;
  return bottom > 0 ? top / bottom : 0;
}
