import type { CheckSettings } from '../checks/check-settings';
import { judgeBalance, judgeInferred, judgeTemperatures } from '../checks/judge-state';
import type { JudgedPeriod } from '../checks/judged-period';
import { nominalSensors } from '../checks/nominal-sensors';
import { REASON_BIT } from '../checks/reasons';
import { screenReadings } from '../checks/screen';
import { applyVerdict, INCLUDED, verdictsOn } from '../checks/verdicts';
import { AS_ON_DATASHEET, type CleanFactors } from '../clean/clean-reference';
import { balanceError } from '../exchange/duty';
import type { Exchanger } from '../exchange/exchanger';
import { type BalanceBuffers, balanceBuffers } from '../exchange/reconcile';
import type { ReadingColumns } from '../series/reading-columns';
import { closeBalance, imbalanceVariance } from './close-balance';
import { completeState, NONE_INFERRED, type Screened } from './complete-state';
import { compareWithClean, makeRating, type Rating, rateState } from './conductance-figures';
import { enthalpyDrop, enthalpyRise } from './enthalpy-change';
import { blankInfinities, type EvaluationColumns, makeEvaluationColumns } from './evaluation-columns';
import { makeSensitivities, type Sensitivities } from './sensitivities';
import { propagate } from './uncertainty';
import { PLACE, unitModel } from './unit-model';

/** Reasons that leave nothing to evaluate; with any other the figures are worked out all the same, to be shown. */
const NOTHING_LEFT =
  REASON_BIT.missing |
  REASON_BIT['not-a-number'] |
  REASON_BIT['out-of-range'] |
  REASON_BIT['outside-fluid-range'] |
  REASON_BIT['unit-off'];

export type EvaluationInput = {
  exchanger: Exchanger;
  settings: CheckSettings;
  readings: ReadingColumns;
  /** Learned factors on the clean resistances [-]; as on the datasheet where not given. */
  cleanFactors?: CleanFactors;
  /** Bits of the unit's nominal sensors over its whole record; worked out from `readings` where not given. */
  nominal?: number;
  /** What people said of readings; of two that overlap the later in the list holds. */
  judged?: readonly JudgedPeriod[];
};

/**
 * Evaluates periodic readings: screening, missing value inferred, balance closed, U, clean U at the same flows, fouling
 * resistance, lost duty and their uncertainties. A single reading is a column of length 1.
 *
 * @param input unit, thresholds and readings (columns of length n in time order, no duplicates)
 * @returns columns of length n; a value is NaN only where that reading's mask is not 0, and never Infinity
 * @range  any length; RangeError for an impossible datasheet
 * @source METHODS §3 to §7
 * @check  tests/core/fouling/evaluate-readings.test.ts, tests/properties/pipeline.test.ts
 */
export function evaluateReadings(input: EvaluationInput): EvaluationColumns {
  const { exchanger, settings, readings, cleanFactors = AS_ON_DATASHEET, judged = [] } = input;
  const model = unitModel(exchanger, settings, cleanFactors);
  const columns = makeEvaluationColumns(readings.time.length);
  columns.time.set(readings.time);
  const nominal = input.nominal ?? nominalSensors(readings);
  const { flows, unsteady } = screenReadings(model, readings, { reasons: columns.reasons, nominal });
  const work: Work = {
    screened: { model, readings, flows },
    unsteady,
    verdicts: verdictsOn(readings.time, judged),
    columns,
    buffers: balanceBuffers(),
    rating: makeRating(),
    sensitivities: makeSensitivities(),
  };
  for (let i = 0; i < columns.time.length; i++) {
    if ((columns.reasons[i]! & NOTHING_LEFT) === 0) evaluateReading(work, i);
    else columns.missing[i] = model.plan.missing[flows.measured[i]!]!;
    applyVerdict(columns, i, work.verdicts[i]!);
    if (columns.reasons[i] !== 0) blankInfinities(columns, i);
  }
  return columns;
}

/** What is made once and used for every reading of the columns. */
type Work = {
  screened: Screened;
  /** 1 for each reading that is not steady [-]. */
  unsteady: Uint8Array;
  /** What people said of each reading (`verdictsOn`) [-]. */
  verdicts: Uint8Array;
  columns: EvaluationColumns;
  buffers: BalanceBuffers;
  rating: Rating;
  sensitivities: Sensitivities;
};

function evaluateReading(work: Work, i: number): void {
  const { screened, columns, buffers } = work;
  const { model } = screened;
  const isScreenedOut = columns.reasons[i] !== 0;
  const inferred = completeState(screened, i, buffers);
  if (inferred !== NONE_INFERRED) columns.inferred[i] = 1 << inferred;
  const nominal = model.plan.nominal[screened.flows.measured[i]!]!;
  columns.nominal[i] = nominal;
  let found =
    judgeTemperatures(model, buffers.measured, buffers.uncertainty) |
    judgeInferred(model, buffers.measured, inferred);
  const isReversed = (found & REASON_BIT['reversed-temperatures']) !== 0;
  writeDuties(work, i, inferred);
  if (!isReversed) {
    // A balance against a typed-in flow checks nothing but that flow.
    if (inferred === NONE_INFERRED && nominal === 0) found |= checkBalance(work, i);
    found |= evaluateState(work, i, inferred);
  }
  if (work.unsteady[i] === 1) found |= REASON_BIT['not-steady'];
  // What a person counts in is no longer screened out by values alone: everything else found speaks again.
  if (!isScreenedOut || work.verdicts[i] === INCLUDED) columns.reasons[i]! |= found;
}

/** Duty of each side from its own sensors; NaN where one of them is inferred. */
function writeDuties({ screened, columns, buffers }: Work, i: number, inferred: number): void {
  const { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow } = PLACE;
  const { hot, cold } = screened.model;
  const state = buffers.measured;
  if (inferred !== hotIn && inferred !== hotOut && inferred !== hotFlow) {
    columns.hotDuty[i] = state[hotFlow]! * enthalpyDrop(hot, state[hotIn]!, state[hotOut]!);
  }
  if (inferred !== coldIn && inferred !== coldOut && inferred !== coldFlow) {
    columns.coldDuty[i] = state[coldFlow]! * enthalpyRise(cold, state[coldIn]!, state[coldOut]!);
  }
}

function checkBalance({ screened, columns, buffers }: Work, i: number): number {
  const { model } = screened;
  const balance = balanceError(columns.hotDuty[i]!, columns.coldDuty[i]!);
  columns.balance[i] = balance;
  const variance = imbalanceVariance(model, buffers);
  const mean = Math.abs(columns.hotDuty[i]! + columns.coldDuty[i]!) / 2;
  return judgeBalance(balance, Math.sqrt(variance) / mean, model.settings);
}

/** Closes the balance, rates the state, compares it with the clean unit; the reason that stopped it, or 0. */
function evaluateState(
  { screened, columns, buffers, rating, sensitivities }: Work,
  i: number,
  inferred: number,
): number {
  const { model } = screened;
  if (!closeBalance(model, buffers, inferred)) return REASON_BIT['outside-fluid-range'];
  const state = buffers.reconciled;
  columns.duty[i] = state[PLACE.hotFlow]! * buffers.gradient[PLACE.hotFlow]!;
  columns.hotMassFlow[i] = state[PLACE.hotFlow]!;
  columns.coldMassFlow[i] = state[PLACE.coldFlow]!;
  rateState(model, state, { columns, i, duty: columns.duty[i]!, rating });
  if (!(columns.overallU[i]! > 0)) return REASON_BIT['effectiveness-above-limit'];
  compareWithClean(model, state, { columns, i, rating });
  if (!(columns.cleanU[i]! > 0)) return REASON_BIT['outside-fluid-range'];
  propagate(model, { readings: screened.readings, columns, i, buffers, rating, inferred, sensitivities });
  return 0;
}
