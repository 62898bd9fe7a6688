import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { logMeanDifference } from '@/lib/core/exchange/lmtd';
import { capacityRatio, smallerSide } from '@/lib/core/exchange/rating';
import { numberOfTransferUnits } from '@/lib/core/exchange/transfer-units';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { EVALUATION_FLOAT_COLUMNS } from '@/lib/core/fouling/evaluation-columns';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { DAILY } from './kernel-data';

const DAY_MS = 86_400_000;
const CAPACITY = 4180;
const COUNTER_CURRENT = { kind: 'counter-current' } as const;

/** Six columns of sound readings, one behind the other, in the order of the sensors of the balance. */
export type States = readonly Float64Array[];

/** Density, specific heat, viscosity and conductivity of water at every hot inlet, a unit-year at a time. */
export function properties([temperature]: States): Float64Array[] {
  const water = makeFluid({ kind: 'water', pressure: null });
  const wanted = [water.density!, water.specificHeat, water.viscosity!, water.conductivity!];
  return wanted.map((property) => {
    const out = new Float64Array(temperature!.length);
    for (let i = 0; i < out.length; i++) out[i] = property(temperature![i]!);
    return out;
  });
}

/** NTU, UA, LMTD and F from duty and temperatures, the duty that of a constant specific heat. */
export function conductances(exchanger: Exchanger, states: States): Float64Array[] {
  const [hotIn, hotOut, coldIn, coldOut, hotFlow] = states as [Float64Array, ...Float64Array[]];
  const { arrangement } = exchanger;
  const isCounter = arrangement.kind === 'counter-current';
  const out = [0, 1, 2, 3].map(() => new Float64Array(hotIn.length));
  const [ntus, conductance, lmtd, correction] = out as [Float64Array, ...Float64Array[]];
  for (let i = 0; i < hotIn.length; i++) {
    const duty = hotFlow![i]! * CAPACITY * (hotIn[i]! - hotOut![i]!);
    const hotRate = duty / (hotIn[i]! - hotOut![i]!);
    const coldRate = duty / (coldOut![i]! - coldIn![i]!);
    const side = smallerSide(hotRate, coldRate);
    const smallest = Math.min(hotRate, coldRate);
    const ratio = capacityRatio(hotRate, coldRate);
    const reached = duty / (smallest * (hotIn[i]! - coldIn![i]!));
    const ntu = numberOfTransferUnits(arrangement, reached, ratio, side);
    const counter = isCounter ? ntu : numberOfTransferUnits(COUNTER_CURRENT, reached, ratio, side);
    ntus[i] = ntu;
    conductance![i] = ntu * smallest;
    lmtd![i] = logMeanDifference(hotIn[i]! - coldOut![i]!, hotOut![i]! - coldIn![i]!);
    correction![i] = counter / ntu;
  }
  return out;
}

/** Everything from the readings of one unit to its daily medians, as the product does it. */
export function whole(exchanger: Exchanger, readings: ReadingColumns): Float64Array[] {
  const settings = DEFAULT_CHECK_SETTINGS;
  const evaluation = evaluateReadings({ exchanger, settings, readings, nominal: 0 });
  const localDay = new Int32Array(readings.time.length);
  for (let i = 0; i < localDay.length; i++) localDay[i] = Math.floor(readings.time[i]! / DAY_MS);
  const daily = dailyFigures(evaluation, readings, { localDay, cleanings: [], exchanger });
  return [
    new Float64Array(evaluation.reasons),
    ...EVALUATION_FLOAT_COLUMNS.map((name) => evaluation[name]),
    ...DAILY.map((name) => daily[name]),
  ];
}
