import { BALANCE_SENSORS } from '../exchange/reconcile';
import { SATURATION_SENSOR, sensorBit } from '../fouling/sensor-plan';
import type { UnitModel } from '../fouling/unit-model';
import { firstNotBefore } from '../series/first-not-before';
import { type ReadingColumns, sliceReadings } from '../series/reading-columns';
import { frozenReachedFrom, frozenSensors } from './frozen-sensors';
import { REASON_BIT } from './reasons';
import { type MassFlows, screenValues } from './screen-values';
import { spikes, spikesReachedFrom } from './spikes';
import { STEADY_REACH_MS, steadyReachedFrom, unsteady } from './unsteady';

/** No reading has an effect on the screening of another further away than this [ms]. */
export const CHECK_REACH_MS = 3 * 86_400_000;
/** What steadiness is judged from hangs on the marks of spikes in turn: the two reaches together make CHECK_REACH_MS. */
const SPIKE_REACH_MS = CHECK_REACH_MS - STEADY_REACH_MS;

/**
 * Screens readings for what can be seen in the sensors' values, alone and beside their neighbours'; what needs the heat
 * balance is judged with it. A reason further down the list is only looked for where those above left values to judge.
 *
 * @param model    unit with its settings
 * @param readings columns, length n
 * @param screening masks to add bits to, length n [-], and bits of the nominal sensors (`nominalSensors`)
 * @returns mass flows as measured [kg/s]; which readings are not steady
 * @range  any length
 * @source METHODS §7
 * @check  tests/core/checks/screen.test.ts
 */
export function screenReadings(
  model: UnitModel,
  readings: ReadingColumns,
  { reasons, nominal }: { reasons: Uint32Array; nominal: number },
): { flows: MassFlows; unsteady: Uint8Array } {
  const flows = screenValues(model, readings, reasons);
  const { time } = readings;
  const columns = balanceColumns(readings, flows);
  const frozen = frozenSensors(model, { readings, flows }, nominal | unusedSensors(model));
  const usable = rowsWithin(reasons, 0);
  const spiked = spikes(model, { time, columns, rows: usable, reach: SPIKE_REACH_MS });
  for (const i of usable) {
    if (frozen[i] === 1) reasons[i]! |= REASON_BIT['frozen-sensor'];
    if (spiked[i] === 1) reasons[i]! |= REASON_BIT.spike;
  }
  return {
    flows,
    unsteady: unsteady(model, { time, columns, rows: rowsWithin(reasons, TRUE_VALUES), nominal }),
  };
}

/**
 * First reading whose screening a change from an instant on can reach: never further back than CHECK_REACH_MS, and mostly, as
 * readings lie, less.
 *
 * @param model    unit with its settings, as it was over CHECK_REACH_MS before the change
 * @param readings columns, those of CHECK_REACH_MS before the change among them
 * @param since    first instant at which a reading came, went or changed [ms]
 * @returns instant of that reading [ms], `since` where none is reached
 * @range  any
 * @source none: what the checks look at
 * @check  tests/core/checks/first-reached.test.ts
 */
export function firstReached(model: UnitModel, readings: ReadingColumns, since: number): number {
  const atOrAfter = (instant: number) =>
    Math.min(since, readings.time[firstNotBefore(readings.time, instant)] ?? since);
  const [from, to] = [
    firstNotBefore(readings.time, since - SPIKE_REACH_MS),
    firstNotBefore(readings.time, since),
  ];
  const near = sliceReadings(readings, from, to);
  const reasons = new Uint32Array(to - from);
  const columns = balanceColumns(near, screenValues(model, near, reasons));
  const spiked = spikesReachedFrom(model, { time: near.time, columns, rows: rowsWithin(reasons, 0) });
  const marked = Math.min(spiked ?? since, atOrAfter(frozenReachedFrom(since)));
  return atOrAfter(steadyReachedFrom(model, marked));
}

/** Temperatures [°C] and mass flows [kg/s], in the order of `BALANCE_SENSORS`. */
function balanceColumns(readings: ReadingColumns, flows: MassFlows): Float64Array[] {
  return BALANCE_SENSORS.map((sensor) => {
    if (sensor === 'hotFlow') return flows.hot;
    return sensor === 'coldFlow' ? flows.cold : readings[sensor];
  });
}

/** Reasons that leave a reading's values true: what the unit did, though not evaluable. */
const TRUE_VALUES = REASON_BIT['unit-off'] | REASON_BIT['flow-below-turndown'];

/** Indices of the readings that nothing but these reasons speaks against so far. */
function rowsWithin(reasons: Uint32Array, allowed: number): Int32Array {
  const rows = new Int32Array(reasons.length);
  let count = 0;
  for (let i = 0; i < reasons.length; i++) if ((reasons[i]! & ~allowed) === 0) rows[count++] = i;
  return rows.subarray(0, count);
}

/** With a stated pressure the temperature of the vapour is not used; at constant pressure its sensor stands still in earnest. */
function unusedSensors({ plan, phaseChange }: UnitModel): number {
  return phaseChange === null ? 0 : plan.known & sensorBit(SATURATION_SENSOR[phaseChange]);
}
