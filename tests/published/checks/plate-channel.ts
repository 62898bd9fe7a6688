import { channelReynolds, channelsOf, channelVelocity } from '@/lib/core/exchange/plate-channel';
import { type Check, single } from './check';
import { absolute, exactly } from './tolerance';

const ROUNDED = absolute(0.005, 'two decimals printed');
const COUNTED = exactly('a number of channels');

/** Example 12.13 (from memory): methanol against brackish water, 97 plates 0.5 m wide and 3 mm apart, one pass each. */
function sinnottChecks(): Check[] {
  const pack = { count: 97, channelGap: 3e-3, channelWidth: 0.5, hotPasses: 1, coldPasses: 1 };
  const example = { source: 'Sinnott', origin: 'recalled' } as const;
  const id = 'Sinnott example 12.13';
  return [
    ...(['hot', 'cold'] as const).map((side) =>
      single({
        ...example,
        id: `${id}, ${side} side`,
        quantity: 'channels per pass',
        unit: '–',
        tolerance: COUNTED,
        theirs: 48,
        ours: channelsOf(pack.count, side),
      }),
    ),
    single({
      ...example,
      id: `${id}, methanol`,
      quantity: 'channel velocity',
      unit: 'm/s',
      tolerance: ROUNDED,
      at: '27.8 kg/s of 750 kg/m³',
      theirs: 0.51,
      ours: channelVelocity(pack, 'hot', 27.8, 750),
    }),
    single({
      ...example,
      id: `${id}, methanol`,
      quantity: 'Reynolds number at the printed velocity',
      unit: '–',
      tolerance: absolute(0.5, 'a whole number printed'),
      at: '0.51 m/s, 0.34 mPa·s',
      theirs: 6750,
      ours: channelReynolds(3e-3, 0.51, { density: 750, viscosity: 0.34e-3 }),
    }),
    single({
      ...example,
      id: `${id}, water`,
      quantity: 'channel velocity',
      unit: 'm/s',
      tolerance: ROUNDED,
      at: '68.9 kg/s of 995 kg/m³',
      theirs: 0.96,
      ours: channelVelocity(pack, 'cold', 68.9, 995),
    }),
  ];
}

/** A worksheet after the same method: 109 plates of 0.7 m, 3 mm apart. */
function worksheetChecks(): Check[] {
  const pack = { count: 109, channelGap: 3e-3, channelWidth: 0.7, hotPasses: 1, coldPasses: 1 };
  const worksheet = { id: 'worksheet, 109 plates', source: 'public worksheet', origin: 'printed' } as const;
  return [
    single({
      ...worksheet,
      quantity: 'channels per pass',
      unit: '–',
      tolerance: COUNTED,
      theirs: 54,
      ours: channelsOf(pack.count, 'hot'),
    }),
    single({
      ...worksheet,
      quantity: 'channel velocity',
      unit: 'm/s',
      tolerance: ROUNDED,
      at: '38.683 kg/s of 999.564 kg/m³',
      theirs: 0.34,
      ours: channelVelocity(pack, 'hot', 38.683, 999.564),
    }),
  ];
}

/** Example 10.1 (from memory): 105 plates, 140 kg/s. */
function kakacChecks(): Check[] {
  const example = { id: 'Kakaç & Liu example 10.1', source: 'Kakaç & Liu', origin: 'recalled' } as const;
  return [
    single({
      ...example,
      quantity: 'channels per pass',
      unit: '–',
      tolerance: COUNTED,
      theirs: 52,
      ours: channelsOf(105, 'hot'),
    }),
    single({
      ...example,
      quantity: 'flow of a channel',
      unit: 'kg/s',
      tolerance: ROUNDED,
      theirs: 2.69,
      ours: 140 / channelsOf(105, 'hot'),
    }),
  ];
}

export function plateChannelChecks(): Check[] {
  return [...sinnottChecks(), ...worksheetChecks(), ...kakacChecks()];
}
