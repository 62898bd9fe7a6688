import { type BalanceBuffers, type BalanceStreams, linearise } from '../exchange/reconcile';

/** Newton steps on an imbalance this close to straight in each of its values; six give the last digit. */
const NEWTON_STEPS = 6;
/** Imbalance left that still counts as closed, as a share of the larger duty [-]. */
const CLOSED = 1e-9;

/** What one sensor alone would have to read too much to explain a balance that does not close. */
export type SoleBias = {
  /** Place in `BALANCE_SENSORS`. */
  place: number;
  /** Reading less the value that closes the balance [K, kg/s]. */
  bias: number;
  /** The same in the sensor's own standard uncertainties [-]. */
  inUncertainties: number;
};

/**
 * For each sensor, the bias that would close the balance of one reading if all the others were right; the smallest in
 * units of its own standard uncertainty first. One balance cannot tell which of them it is: this only says which of the
 * explanations asks for least.
 *
 * @param streams enthalpy curves of the four terminals [J/kg, J/(kg·K)]
 * @param buffers `measured` and `uncertainty` of the reading [°C, kg/s]
 * @returns one entry per sensor that could close it; none for a sensor without uncertainty, nor where its value would leave the
 *   fluid's range
 * @range  all six values measured
 * @source METHODS §3; root of Qh − Qc in one value (Newton)
 * @check  tests/core/fouling/suspects.test.ts
 */
export function soleBiases(
  streams: BalanceStreams,
  { measured, uncertainty }: Pick<BalanceBuffers, 'measured' | 'uncertainty'>,
): SoleBias[] {
  const biases: SoleBias[] = [];
  for (let place = 0; place < measured.length; place++) {
    if (!(uncertainty[place]! > 0)) continue;
    const closing = closingValue(streams, measured, place);
    if (Number.isNaN(closing)) continue;
    const bias = measured[place]! - closing;
    biases.push({ place, bias, inUncertainties: bias / uncertainty[place]! });
  }
  return biases.sort((a, b) => Math.abs(a.inUncertainties) - Math.abs(b.inUncertainties));
}

function closingValue(streams: BalanceStreams, measured: Float64Array, place: number): number {
  const state = measured.slice();
  const gradient = new Float64Array(measured.length);
  for (let step = 0; step < NEWTON_STEPS; step++) {
    const imbalance = linearise(streams, state, gradient);
    state[place]! -= imbalance / gradient[place]!;
  }
  const left = Math.abs(linearise(streams, state, gradient));
  return left <= CLOSED * Math.abs(state[4]! * gradient[4]!) ? state[place]! : Number.NaN;
}
