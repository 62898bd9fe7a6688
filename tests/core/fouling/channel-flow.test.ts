import { describe, expect, it } from 'vitest';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { channelFlow, designChannelFlow } from '@/lib/core/fouling/channel-flow';
import { constantFluid, waterUnit } from '../../support/forward-readings';

const pack = { count: 97, channelGap: 3e-3, channelWidth: 0.5, hotPasses: 1, coldPasses: 1 };

describe('flow in the plate channels', () => {
  it('takes water at its mean temperature: 40 °C has 992.2 kg/m³ and 0.653 mPa·s (IAPWS, common tables)', () => {
    const water = makeFluid({ kind: 'water', pressure: null });
    const { velocity, reynolds } = channelFlow(pack, 'hot', {
      fluid: water,
      massFlow: 36,
      inlet: 50,
      outlet: 30,
    });
    const expected = 36 / (992.2 * 3e-3 * 0.5 * 48);
    expect(Math.abs(velocity! / expected - 1)).toBeLessThan(1e-3);
    expect(Math.abs(reynolds! / ((992.2 * expected * 6e-3) / 0.653e-3) - 1)).toBeLessThan(3e-3);
  });

  it('at the design point takes flow and temperatures of the datasheet', () => {
    const unit = waterUnit();
    const fluid = makeFluid(unit.hot);
    expect(designChannelFlow(unit, pack, 'hot')).toEqual(
      channelFlow(pack, 'hot', { fluid, massFlow: 20, inlet: 80, outlet: 50 }),
    );
  });

  it('says nothing where the fluid states no density, and no Reynolds number without a viscosity', () => {
    const bare = makeFluid(constantFluid(4000));
    const at = { massFlow: 10, inlet: 30, outlet: 20 };
    expect(channelFlow(pack, 'cold', { fluid: bare, ...at })).toEqual({ velocity: null, reynolds: null });
    const dense = { ...bare, density: () => 1000 };
    const flow = channelFlow(pack, 'cold', { fluid: dense, ...at });
    expect(flow.velocity).toBeCloseTo(10 / (1000 * 1.5e-3 * 48), 12);
    expect(flow.reynolds).toBeNull();
  });

  it('says nothing of steam, and nothing outside the range of the fluid', () => {
    const steam = makeFluid({ kind: 'steam', pressure: 2e5 });
    const water = makeFluid({ kind: 'water', pressure: null });
    expect(
      channelFlow(pack, 'hot', { fluid: steam, massFlow: 1, inlet: 120, outlet: 110 }).velocity,
    ).toBeNull();
    expect(
      channelFlow(pack, 'hot', { fluid: water, massFlow: 1, inlet: 900, outlet: 900 }).velocity,
    ).toBeNull();
  });
});
