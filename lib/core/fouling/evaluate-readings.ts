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
import { balanceBuffers, linearise } from '../exchange/reconcile';
import type { ReadingColumns } from '../series/reading-columns';
import { balanceStreams, closeFrom, imbalanceVariance } from './close-balance';
import { completeState, NONE_INFERRED, type Screened } from './complete-state';
import { compareWithClean, makeRating, rateState } from './conductance-figures';
import { enthalpyDrop, enthalpyRise } from './enthalpy-change';
import { blankInfinities, type EvaluationColumns, makeEvaluationColumns } from './evaluation-columns';
import { makeSensitivities, type Rated } from './sensitivities';
import { propagate } from './uncertainty';
import { PLACE, type UnitModel, unitModel } from './unit-model';

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
    rated: {
      readings,
      columns,
      i: 0,
      buffers: balanceBuffers(),
      rating: makeRating(),
      inferred: NONE_INFERRED,
      sensitivities: makeSensitivities(),
    },
  };
  for (let i = 0; i < columns.time.length; i++) {
    if ((columns.reasons[i]! & NOTHING_LEFT) === 0) evaluateReading(work, i);
    else columns.missing[i] = model.plan.missing[flows.measured[i]!]!;
    applyVerdict(columns, i, work.verdicts[i]!);
  }
  blankInfinities(columns);
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
  /** One object, used again for each reading. */
  rated: Rated;
};

function evaluateReading(work: Work, i: number): void {
  const { screened, columns, rated } = work;
  const { buffers } = rated;
  const { model } = screened;
  const isScreenedOut = columns.reasons[i] !== 0;
  const inferred = completeState(screened, i, buffers);
  rated.i = i;
  rated.inferred = inferred;
  if (inferred !== NONE_INFERRED) columns.inferred[i] = 1 << inferred;
  const nominal = model.plan.nominal[screened.flows.measured[i]!]!;
  columns.nominal[i] = nominal;
  let found =
    judgeTemperatures(model, buffers.measured, buffers.uncertainty) |
    judgeInferred(model, buffers.measured, inferred);
  const isReversed = (found & REASON_BIT['reversed-temperatures']) !== 0;
  // Worked out once: duties, their balance and the first step of closing it all follow from it.
  const imbalance = linearise(balanceStreams(model, buffers), buffers.measured, buffers.gradient);
  writeDuties(model, rated);
  if (!isReversed) {
    // A balance against a typed-in flow checks nothing but that flow.
    if (inferred === NONE_INFERRED && nominal === 0) found |= checkBalance(model, rated);
    found |= evaluateState(model, rated, imbalance);
  }
  if (work.unsteady[i] === 1) found |= REASON_BIT['not-steady'];
  // What a person counts in is no longer screened out by values alone: everything else found speaks again.
  if (!isScreenedOut || work.verdicts[i] === INCLUDED) columns.reasons[i]! |= found;
}

/** Duty of each side from its own sensors; NaN where one of them is inferred. */
function writeDuties(model: UnitModel, { columns, i, buffers, inferred }: Rated): void {
  const { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow } = PLACE;
  const { hot, cold, phaseChange } = model;
  const { measured: state, gradient } = buffers;
  if (inferred !== hotIn && inferred !== hotOut && inferred !== hotFlow) {
    const drop =
      phaseChange === 'hot' ? enthalpyDrop(hot, state[hotIn]!, state[hotOut]!) : gradient[hotFlow]!;
    columns.hotDuty[i] = state[hotFlow]! * drop;
  }
  if (inferred !== coldIn && inferred !== coldOut && inferred !== coldFlow) {
    const rise =
      phaseChange === 'cold' ? enthalpyRise(cold, state[coldIn]!, state[coldOut]!) : -gradient[coldFlow]!;
    columns.coldDuty[i] = state[coldFlow]! * rise;
  }
}

function checkBalance({ settings }: UnitModel, { columns, i, buffers }: Rated): number {
  const balance = balanceError(columns.hotDuty[i]!, columns.coldDuty[i]!);
  columns.balance[i] = balance;
  const variance = imbalanceVariance(buffers);
  const mean = Math.abs(columns.hotDuty[i]! + columns.coldDuty[i]!) / 2;
  return judgeBalance(balance, Math.sqrt(variance) / mean, settings);
}

/** Closes the balance, rates the state, compares it with the clean unit; the reason that stopped it, or 0. */
function evaluateState(model: UnitModel, rated: Rated, imbalance: number): number {
  const { columns, i, buffers, inferred } = rated;
  if (!closeFrom(model, buffers, { inferred, imbalance })) return REASON_BIT['outside-fluid-range'];
  const state = buffers.reconciled;
  columns.duty[i] = state[PLACE.hotFlow]! * buffers.gradient[PLACE.hotFlow]!;
  columns.hotMassFlow[i] = state[PLACE.hotFlow]!;
  columns.coldMassFlow[i] = state[PLACE.coldFlow]!;
  rateState(model, state, rated);
  if (!(columns.overallU[i]! > 0)) return REASON_BIT['effectiveness-above-limit'];
  compareWithClean(model, state, rated);
  if (!(columns.cleanU[i]! > 0)) return REASON_BIT['outside-fluid-range'];
  propagate(model, rated);
  return 0;
}
