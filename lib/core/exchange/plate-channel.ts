import type { Side } from './exchanger';
import { plateChannels } from './plate-area';

/** A pack of plates: plates, end plates included [-]; mean gap between neighbours and width of a channel [m]; passes [-]. */
export type PlatePack = {
  count: number;
  channelGap: number;
  channelWidth: number;
  hotPasses: number;
  coldPasses: number;
};

/**
 * Below this share of its design velocity a channel is advised on [-] (own choice): wall shear goes with the velocity to
 * about the power 1.8, so two fifths of it are left, and what the stream no longer shears off stays (common practice).
 */
export const SLOW_SHARE = 0.6;

/**
 * Channels of one stream in a pack of plates: half of N − 1. An odd one out goes to the cold stream, so that both
 * outer channels carry it and the frame stays cool (own choice; a maker may do otherwise).
 *
 * @param count plates, end plates included [-], at least 3 for an answer
 * @param side  stream [-]
 * @returns channels of that stream [-]; NaN for fewer than 3 plates
 * @range any
 * @source common practice; Kakaç, Liu & Pramuanjaroenkij, Heat Exchangers, 3rd ed. 2012, ch. 11
 * @check tests/published/plate-channel.test.ts
 */
export function channelsOf(count: number, side: Side): number {
  const half = plateChannels(count) / 2;
  return side === 'cold' ? Math.ceil(half) : Math.floor(half);
}

/**
 * Mean velocity in the channels of one stream: v = ṁ/(ρ·b·w·n), n channels side by side in each pass.
 *
 * @param pack     plates and channel [-, m]
 * @param side     stream [-]
 * @param massFlow [kg/s]
 * @param density  [kg/m³], > 0
 * @returns [m/s]; passes of unequal length are taken at their mean
 * @range any; a liquid or gas that does not change phase
 * @source continuity; Sinnott, Coulson & Richardson's Chemical Engineering vol. 6, 4th ed. 2005, sect. 12.12
 * @check tests/published/plate-channel.test.ts
 */
export function channelVelocity(pack: PlatePack, side: Side, massFlow: number, density: number): number {
  const channels = channelsOf(pack.count, side) / (side === 'hot' ? pack.hotPasses : pack.coldPasses);
  return massFlow / (density * pack.channelGap * pack.channelWidth * channels);
}

/**
 * Reynolds number of a plate channel on the hydraulic diameter of a wide slot, twice the gap: Re = 2·ρ·v·b/μ.
 *
 * @param channelGap mean gap between neighbouring plates [m]
 * @param velocity   mean velocity in the channel [m/s]
 * @param fluid      density [kg/m³] and dynamic viscosity [Pa·s]
 * @returns [-]
 * @range gap much smaller than the width; the enlargement of the plate by its corrugation is left out
 * @source Shah & Sekulić, Fundamentals of Heat Exchanger Design, 2003, sect. 7.4; Sinnott, Coulson & Richardson's Chemical Engineering vol. 6, 4th ed. 2005, sect. 12.12
 * @check tests/published/plate-channel.test.ts
 */
export function channelReynolds(
  channelGap: number,
  velocity: number,
  fluid: { density: number; viscosity: number },
): number {
  return (2 * fluid.density * velocity * channelGap) / fluid.viscosity;
}
