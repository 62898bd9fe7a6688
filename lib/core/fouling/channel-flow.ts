import type { Exchanger, Side } from '../exchange/exchanger';
import { channelReynolds, channelVelocity, type PlatePack } from '../exchange/plate-channel';
import type { Fluid } from '../fluids/fluid';
import { makeFluid } from '../fluids/make-fluid';

/** Mean velocity [m/s] and Reynolds number [-] in the channels of one stream; null where the fluid does not state enough. */
export type ChannelFlow = { velocity: number | null; reynolds: number | null };

export type StreamState = { fluid: Fluid; massFlow: number; inlet: number; outlet: number };

/**
 * Flow in the plate channels of one stream, its properties taken at the mean of its two temperatures.
 *
 * @param pack   plates and channel [-, m]
 * @param side   stream [-]
 * @param stream fluid, mass flow [kg/s], temperatures [°C]
 * @returns velocity [m/s] and Reynolds number [-]; null where density or viscosity is not stated or out of range, and for a
 *   stream that changes phase, whose velocity is not one
 * @range  as `channelVelocity` and the fluid
 * @source METHODS §2; see `channelVelocity` and `channelReynolds`
 * @check  tests/core/fouling/channel-flow.test.ts
 */
export function channelFlow(pack: PlatePack, side: Side, stream: StreamState): ChannelFlow {
  const { fluid, massFlow } = stream;
  const mean = (stream.inlet + stream.outlet) / 2;
  if (fluid.phaseChange !== null || fluid.density === null) return { velocity: null, reynolds: null };
  const density = fluid.density(mean);
  const velocity = channelVelocity(pack, side, massFlow, density);
  const viscosity = fluid.viscosity?.(mean) ?? Number.NaN;
  const reynolds = channelReynolds(pack.channelGap, velocity, { density, viscosity });
  return { velocity: finiteOrNull(velocity), reynolds: finiteOrNull(reynolds) };
}

/**
 * Flow in the plate channels of one stream at the design point of its datasheet.
 *
 * @param exchanger its design point [°C, kg/s] and fluids
 * @param pack      plates and channel [-, m]
 * @param side      stream [-]
 * @returns velocity [m/s] and Reynolds number [-], as `channelFlow`
 * @range  as `channelFlow`
 * @source METHODS §2
 * @check  tests/core/fouling/channel-flow.test.ts
 */
export function designChannelFlow(exchanger: Exchanger, pack: PlatePack, side: Side): ChannelFlow {
  const { design } = exchanger;
  return channelFlow(pack, side, {
    fluid: makeFluid(exchanger[side]),
    massFlow: design[`${side}Flow`],
    inlet: design[`${side}In`],
    outlet: design[`${side}Out`],
  });
}

function finiteOrNull(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
