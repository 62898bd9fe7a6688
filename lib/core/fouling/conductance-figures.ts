import { cleanResistance, filmResistance } from '../clean/clean-conductance';
import { effectiveness } from '../exchange/effectiveness';
import type { Arrangement, Side } from '../exchange/exchanger';
import { logMeanDifference } from '../exchange/lmtd';
import { capacityRatio, smallerSide } from '../exchange/rating';
import { numberOfTransferUnits } from '../exchange/transfer-units';
import type { EvaluationColumns } from './evaluation-columns';
import { PLACE, type UnitModel } from './unit-model';

const COUNTER_CURRENT = { kind: 'counter-current' } as const;

/** What the rating of one reading found beside the figures it wrote; one object, used again for each reading. */
export type Rating = {
  smallerSide: Side;
  /** [W/K] */
  smallestRate: number;
  /** Cr [-] */
  capacityRatio: number;
  /** Clean films at the reading's flows and temperatures, before the factors [m²·K/W]. */
  hotFilm: number;
  coldFilm: number;
};

/**
 * Room for a rating.
 *
 * @returns zeros [-]
 * @range  none
 * @source none: room only
 * @check  tests/core/fouling/evaluate-readings.test.ts
 */
export function makeRating(): Rating {
  return { smallerSide: 'hot', smallestRate: 0, capacityRatio: 0, hotFilm: 0, coldFilm: 0 };
}

/**
 * Rates a closed state: capacity rates Q/ΔT, effectiveness, NTU, conductance, U, LMTD and F.
 *
 * @param model  the unit
 * @param state  six values whose balance is closed [°C, kg/s], in the order of `BALANCE_SENSORS`
 * @param at     columns to write, which row (its duty [W] is written), and room for what the next steps need
 * @returns nothing; the row's figures are NaN where the arrangement cannot give them
 * @range  temperatures in order (`judgeTemperatures`)
 * @source METHODS §4; Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. 2007, eqs. 11.14 to 11.25
 * @check  tests/core/fouling/evaluate-readings.test.ts
 */
export function rateState(
  model: UnitModel,
  state: Float64Array,
  at: { columns: EvaluationColumns; i: number; rating: Rating },
): void {
  const { columns, i, rating } = at;
  const duty = columns.duty[i]!;
  const { phaseChange, hotEnd, coldStart } = model;
  const { hotIn: hotStart, coldOut: coldEnd } = PLACE;
  const hotIn = state[hotStart]!;
  const hotOut = state[hotEnd]!;
  const coldIn = state[coldStart]!;
  const coldOut = state[coldEnd]!;
  const hotRate = phaseChange === 'hot' ? Number.POSITIVE_INFINITY : duty / (hotIn - hotOut);
  const coldRate = phaseChange === 'cold' ? Number.POSITIVE_INFINITY : duty / (coldOut - coldIn);
  const side = smallerSide(hotRate, coldRate);
  const smallest = Math.min(hotRate, coldRate);
  const ratio = capacityRatio(hotRate, coldRate);
  const reached = duty / (smallest * (hotIn - coldIn));
  const { arrangement, area } = model.exchanger;
  const ntu = numberOfTransferUnits(arrangement, reached, ratio, side);
  const conductance = ntu * smallest;
  const lmtd = logMeanDifference(hotIn - coldOut, hotOut - coldIn);
  columns.effectiveness[i] = reached;
  columns.ntu[i] = ntu;
  columns.conductance[i] = conductance;
  columns.overallU[i] = conductance / area;
  columns.lmtd[i] = lmtd;
  // From its own definition, not from the conductance: LMTD·F must stay a second route to the same figure.
  const counterNtu = isCounter(arrangement)
    ? ntu
    : numberOfTransferUnits(COUNTER_CURRENT, reached, ratio, side);
  columns.correction[i] = counterNtu / ntu;
  rating.smallerSide = side;
  rating.smallestRate = smallest;
  rating.capacityRatio = ratio;
}

/** Arrangements whose NTU is that of counter-current flow, worked out once. */
function isCounter(arrangement: Arrangement): boolean {
  if (arrangement.kind === 'plate')
    return arrangement.hotPasses === arrangement.coldPasses && arrangement.flow === 'counter';
  return arrangement.kind === 'counter-current';
}

/**
 * Compares a rated reading with the clean unit at the same flows and inlets: Uc, Rf, cleanliness, lost duty.
 *
 * @param model the unit
 * @param state closed state [°C, kg/s]
 * @param at    columns to write, which row, and what `rateState` left
 * @returns nothing; Rf is never clipped at zero
 * @range  U > 0
 * @source METHODS §5, §6 and §10; HEI Standards for Steam Surface Condensers (cleanliness factor U/Uc)
 * @check  tests/core/fouling/evaluate-readings.test.ts, tests/published/fouling-resistance.test.ts
 */
export function compareWithClean(
  model: UnitModel,
  state: Float64Array,
  at: { columns: EvaluationColumns; i: number; rating: Rating },
): void {
  const { columns, i, rating } = at;
  const { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow } = PLACE;
  const { hot, cold } = model.clean;
  rating.hotFilm = filmResistance(hot, state[hotFlow]!, (state[hotIn]! + state[hotOut]!) / 2);
  rating.coldFilm = filmResistance(cold, state[coldFlow]!, (state[coldIn]! + state[coldOut]!) / 2);
  const cleanU = 1 / cleanResistance(model.clean, rating.hotFilm, rating.coldFilm);
  const overallU = columns.overallU[i]!;
  const { arrangement, area } = model.exchanger;
  const cleanNtu = (cleanU * area) / rating.smallestRate;
  const reached = effectiveness(arrangement, cleanNtu, rating.capacityRatio, rating.smallerSide);
  const cleanDuty = reached * rating.smallestRate * (state[hotIn]! - state[model.coldStart]!);
  columns.cleanU[i] = cleanU;
  columns.foulingResistance[i] = foulingResistance(overallU, cleanU);
  columns.cleanliness[i] = overallU / cleanU;
  columns.lostDuty[i] = cleanDuty - columns.duty[i]!;
}

/**
 * Fouling resistance from today's and the clean conductance: Rf = 1/U − 1/Uc.
 *
 * @param overallU conductance [W/(m²·K)], > 0
 * @param cleanU   clean conductance at the same flows [W/(m²·K)], > 0
 * @returns [m²·K/W], may be negative (cleaner than its reference)
 * @range  any
 * @source Incropera et al., 6th ed. 2007, eq. 11.5 (fouling factors in series with the clean resistance)
 * @check  tests/published/fouling-resistance.test.ts
 */
export function foulingResistance(overallU: number, cleanU: number): number {
  return 1 / overallU - 1 / cleanU;
}

/**
 * Cleanliness that a fouling resistance leaves: U/Uc = 1/(1 + Uc·Rf).
 *
 * @param foulingResistance [m²·K/W]
 * @param cleanU            [W/(m²·K)]
 * @returns [-]
 * @range  Uc·Rf above −1
 * @source HEI Standards for Steam Surface Condensers (definition of the cleanliness factor)
 * @check  tests/published/fouling-resistance.test.ts
 */
export function cleanlinessOf(foulingResistance: number, cleanU: number): number {
  return 1 / (1 + cleanU * foulingResistance);
}

/**
 * Fouling resistance at which a cleanliness is reached: Rf = (1/cleanliness − 1)/Uc.
 *
 * @param cleanliness U/Uc [-], > 0
 * @param cleanU      [W/(m²·K)]
 * @returns [m²·K/W]
 * @range  any
 * @source HEI Standards for Steam Surface Condensers (definition of the cleanliness factor)
 * @check  tests/published/fouling-resistance.test.ts
 */
export function foulingAtCleanliness(cleanliness: number, cleanU: number): number {
  return (1 / cleanliness - 1) / cleanU;
}
