import { judgeBalance, judgeInferred, judgeTemperatures } from '../checks/judge-state';
import { REASON_BIT } from '../checks/reasons';
import { INCLUDED } from '../checks/verdicts';
import { balanceError } from '../exchange/duty';
import { balanceBuffers, IMBALANCE, linearise } from '../exchange/reconcile';
import type { ReadingColumns } from '../series/reading-columns';
import { balanceStreams, closeFrom, imbalanceVariance } from './close-balance';
import { completeState, NONE_INFERRED, type Screened } from './complete-state';
import { compareWithClean, makeRating, rateState } from './conductance-figures';
import { enthalpyDrop, enthalpyRise } from './enthalpy-change';
import type { EvaluationColumns } from './evaluation-columns';
import { makeSensitivities, type Rated, writeSensitivities } from './sensitivities';
import { propagate } from './uncertainty';
import { PLACE, type UnitModel } from './unit-model';

/** Readings worked out together, one step for all before the next: short loops compile to faster code [-] (measured). */
export const BLOCK = 32;

/** What is made once and used for every reading of the columns. */
export type Work = {
  screened: Screened;
  /** 1 for each reading that is not steady [-]. */
  unsteady: Uint8Array;
  /** What people said of each reading (`verdictsOn`) [-]. */
  verdicts: Uint8Array;
  columns: EvaluationColumns;
  /** Objects used again for each block of readings. */
  block: InWork[];
};

/** A reading in work. */
export type InWork = {
  rated: Rated;
  /** Reasons found so far [-]. */
  found: number;
  /** No step has failed so far. */
  isGoing: boolean;
};

/**
 * Room for the readings of a block.
 *
 * @param readings columns of length n [°C, kg/s or m³/s]
 * @param columns  the figures to write, length n
 * @returns `BLOCK` objects, fewer where there are fewer readings; none is in work [-]
 * @range  any length
 * @source none: room only
 * @check  tests/core/fouling/evaluate-block.test.ts
 */
export function makeBlock(readings: ReadingColumns, columns: EvaluationColumns): InWork[] {
  const count = Math.min(BLOCK, columns.time.length);
  while (ROOMS.length < count) ROOMS.push(makeRoom());
  return ROOMS.slice(0, count).map((room) => ({
    rated: { readings, columns, i: 0, inferred: NONE_INFERRED, ...room },
    found: 0,
    isGoing: false,
  }));
}

/** What is written of each reading before it is read: it is used from block to block, and from unit to unit. */
const ROOMS: Pick<Rated, 'buffers' | 'rating' | 'sensitivities'>[] = [];

function makeRoom() {
  return { buffers: balanceBuffers(), rating: makeRating(), sensitivities: makeSensitivities() };
}

/**
 * Evaluates the readings of a block, each from its values alone: completes it, judges it, closes its balance, rates it,
 * compares it with the clean unit and propagates the sensors' uncertainties.
 *
 * @param work  unit, readings and the block, `rated.i` of whose first readings says which they are
 * @param count how many of the block's readings are in work [-]
 * @returns nothing; their rows of the columns and the reasons found are written
 * @range  0 to `BLOCK`; readings that the screening left values to evaluate
 * @source METHODS §3 to §7
 * @check  tests/core/fouling/evaluate-block.test.ts, tests/core/fouling/evaluate-readings.test.ts
 */
export function evaluateBlock(work: Work, count: number): void {
  const { block } = work;
  const { model } = work.screened;
  for (let k = 0; k < count; k++) judgeReading(work, block[k]!);
  for (let k = 0; k < count; k++) if (block[k]!.isGoing) closeReading(model, block[k]!);
  for (let k = 0; k < count; k++) if (block[k]!.isGoing) rateClosed(model, block[k]!);
  for (let k = 0; k < count; k++) if (block[k]!.isGoing) compareReading(model, block[k]!);
  for (let k = 0; k < count; k++) if (block[k]!.isGoing) writeSensitivities(model, block[k]!.rated);
  for (let k = 0; k < count; k++) if (block[k]!.isGoing) propagate(model, block[k]!.rated);
  for (let k = 0; k < count; k++) tellReasons(work, block[k]!);
}

/** Completes one reading, judges it and its balance. */
function judgeReading({ screened, columns }: Work, reading: InWork): void {
  const { rated } = reading;
  const { buffers, i } = rated;
  const { model } = screened;
  const inferred = completeState(screened, i, buffers);
  rated.inferred = inferred;
  if (inferred !== NONE_INFERRED) columns.inferred[i] = 1 << inferred;
  const nominal = model.plan.nominal[screened.flows.measured[i]!]!;
  columns.nominal[i] = nominal;
  reading.found =
    judgeTemperatures(model, buffers.measured, buffers.uncertainty) |
    judgeInferred(model, buffers.measured, inferred);
  reading.isGoing = (reading.found & REASON_BIT['reversed-temperatures']) === 0;
  // Worked out once: duties, their balance and the first step of closing it all follow from it.
  const streams = balanceStreams(model, buffers);
  buffers.statistics[IMBALANCE] = linearise(streams, buffers.measured, buffers.gradient);
  writeDuties(model, rated);
  // A balance against a typed-in flow checks nothing but that flow.
  const isChecked = reading.isGoing && inferred === NONE_INFERRED && nominal === 0;
  if (isChecked) reading.found |= checkBalance(model, rated);
}

function closeReading(model: UnitModel, reading: InWork): void {
  const { buffers, inferred } = reading.rated;
  const imbalance = buffers.statistics[IMBALANCE]!;
  if (!closeFrom(model, buffers, { inferred, imbalance })) stop(reading, REASON_BIT['outside-fluid-range']);
}

function stop(reading: InWork, reason: number): void {
  reading.found |= reason;
  reading.isGoing = false;
}

/** Rates a reading whose balance is closed. */
function rateClosed(model: UnitModel, reading: InWork): void {
  const { rated } = reading;
  const { columns, i, buffers } = rated;
  const state = buffers.reconciled;
  columns.duty[i] = state[PLACE.hotFlow]! * buffers.gradient[PLACE.hotFlow]!;
  columns.hotMassFlow[i] = state[PLACE.hotFlow]!;
  columns.coldMassFlow[i] = state[PLACE.coldFlow]!;
  rateState(model, state, rated);
  if (!(columns.overallU[i]! > 0)) stop(reading, REASON_BIT['effectiveness-above-limit']);
}

/** Compares a rated reading with the clean unit. */
function compareReading(model: UnitModel, reading: InWork): void {
  const { columns, i, buffers } = reading.rated;
  compareWithClean(model, buffers.reconciled, reading.rated);
  if (!(columns.cleanU[i]! > 0)) stop(reading, REASON_BIT['outside-fluid-range']);
}

function tellReasons({ columns, unsteady, verdicts }: Work, { rated, found }: InWork): void {
  const { i } = rated;
  const moving = unsteady[i] === 1 ? REASON_BIT['not-steady'] : 0;
  // What a person counts in is no longer screened out by values alone: everything else found speaks again.
  if (columns.reasons[i] === 0 || verdicts[i] === INCLUDED) columns.reasons[i]! |= found | moving;
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
