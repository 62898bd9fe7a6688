import { describe, expect, it } from 'vitest';
import { AppError, type Fault } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import { fluidSpec } from '@/lib/contract/fluid-spec';
import { streamSchema } from '@/lib/contract/stream';
import type { FluidSpec } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { oilDensityOf } from '@/lib/core/fluids/oil';

const q = (value: number, unit: string) => ({ value, unit });
const celsius = (value: number) => q(value, 'Cel');
const specOf = (stream: unknown) => fluidSpec(streamSchema.parse(stream), 'hot');

function refusal(stream: unknown): Fault[] {
  const parsed = streamSchema.safeParse(stream);
  if (!parsed.success) return faultsOf(parsed.error, 'hot.');
  try {
    fluidSpec(parsed.data, 'hot');
    return [];
  } catch (error) {
    expect(error).toBeInstanceOf(AppError);
    return (error as AppError).faults;
  }
}

describe('an oil with two viscosities', () => {
  const oil = (first: object, second: object) => ({
    fluid: 'oil',
    density: q(868, 'kg/m3'),
    viscosities: [first, second],
  });
  const at = (temperature: number, value: number, unit: string) => ({
    temperature: celsius(temperature),
    value: q(value, unit),
  });

  it('takes kinematic ones as they are', () => {
    const spec = specOf(oil(at(40, 46, 'mm2/s'), at(100, 6.8, 'cSt'))) as Extract<FluidSpec, { kind: 'oil' }>;
    expect(spec.viscosity!.temperatures).toEqual([40, 100]);
    expect(spec.viscosity!.kinematicViscosities[0]).toBeCloseTo(46e-6, 15);
    expect(spec.viscosity!.kinematicViscosities[1]).toBeCloseTo(6.8e-6, 15);
  });

  it('turns dynamic ones into kinematic by its own density at that temperature', () => {
    const density = oilDensityOf(868);
    const spec = specOf(oil(at(40, 46 * 0.868, 'mPa.s'), at(100, 6, 'cP')));
    const fluid = makeFluid(spec);
    // What was stated comes back, as dynamic viscosity.
    expect(fluid.viscosity!(40)).toBeCloseTo(46e-3 * 0.868, 12);
    expect(fluid.viscosity!(100)).toBeCloseTo(6e-3, 12);
    expect(fluid.viscosity!(40) / density(40)).toBeGreaterThan(46e-6);
  });

  it('follows ASTM D341 between them: ISO VG 46 oil of viscosity index 100 at 70 °C', () => {
    // ASTM D341 by hand: Z = ν + 0.7, log log Z linear in log T; 46 mm²/s at 40 °C and 6.8 mm²/s at 100 °C.
    const w = (nu: number) => Math.log10(Math.log10(nu + 0.7));
    const slope = (w(6.8) - w(46)) / Math.log10(373.15 / 313.15);
    const byHand = 10 ** (10 ** (w(46) + slope * Math.log10(343.15 / 313.15))) - 0.7;
    const fluid = makeFluid(specOf(oil(at(40, 46, 'mm2/s'), at(100, 6.8, 'mm2/s'))));
    expect(fluid.viscosity!(70) / fluid.density!(70)).toBeCloseTo(byHand * 1e-6, 12);
  });

  it('states no viscosity without them', () => {
    expect(specOf({ fluid: 'oil', density: q(868, 'kg/m3') })).toMatchObject({ viscosity: null });
  });

  it.each([
    [
      'one temperature twice',
      at(40, 46, 'mm2/s'),
      at(40, 6.8, 'mm2/s'),
      'hot.viscosities[1].temperature',
      'must differ',
    ],
    [
      'inverted ones',
      at(40, 6.8, 'mm2/s'),
      at(100, 46, 'mm2/s'),
      'hot.viscosities[1].value',
      'gets thinner as it warms',
    ],
    [
      'inverted ones, hot first',
      at(100, 46, 'mm2/s'),
      at(40, 6.8, 'mm2/s'),
      'hot.viscosities[1].value',
      'thinner',
    ],
    ['equal ones', at(40, 46, 'mm2/s'), at(100, 46, 'mm2/s'), 'hot.viscosities[1].value', 'thinner'],
    [
      'a dynamic one too hot for its density',
      at(40, 46, 'mm2/s'),
      at(160, 2, 'mPa.s'),
      'hot.viscosities[1].temperature',
      '0 to 150 °C',
    ],
    [
      'a unit of something else',
      at(40, 46, 'K'),
      at(100, 6, 'mm2/s'),
      'hot.viscosities[0].value.unit',
      'is no unit of viscosity or kinematic viscosity',
    ],
    [
      'none above zero',
      at(40, 0, 'mm2/s'),
      at(100, 6, 'mm2/s'),
      'hot.viscosities[0].value.value',
      'must be greater than 0',
    ],
  ])('refuses %s', (_what, first, second, field, message) => {
    const faults = refusal(oil(first, second));
    expect(faults.map((fault) => fault.field)).toContain(field);
    expect(faults.find((fault) => fault.field === field)!.message).toContain(message);
  });

  it('refuses a single viscosity', () => {
    const [fault] = refusal({
      ...oil(at(40, 46, 'mm2/s'), at(100, 6, 'mm2/s')),
      viscosities: [at(40, 46, 'mm2/s')],
    });
    expect(fault!.field).toBe('hot.viscosities');
  });
});

describe('a custom fluid by polynomials', () => {
  const polynomial = {
    from: q(50, '[degF]'),
    to: q(194, '[degF]'),
    specificHeat: { coefficients: [3.9, 2e-3], unit: 'kJ/(kg.K)' },
    density: { coefficients: [1030, -0.3], unit: 'kg/m3' },
    viscosity: { coefficients: [2, -0.01], unit: 'mPa.s' },
  };
  const stream = { fluid: 'custom', name: 'broth', properties: { polynomial } };

  it('has its range and every coefficient in SI, in powers of °C', () => {
    const spec = specOf(stream) as Extract<FluidSpec, { kind: 'polynomial' }>;
    expect(spec).toMatchObject({ kind: 'polynomial', name: 'broth', vaporisation: null });
    expect([spec.properties.minimum, spec.properties.maximum]).toEqual([
      expect.closeTo(10, 12),
      expect.closeTo(90, 12),
    ]);
    const broth = makeFluid(spec);
    expect(broth.specificHeat(50)).toBeCloseTo(4000, 9);
    expect(broth.density!(20)).toBeCloseTo(1024, 9);
    expect(broth.viscosity!(50)).toBeCloseTo(1.5e-3, 15);
    expect(broth.conductivity).toBeNull();
  });

  it.each([
    [{ specificHeat: { coefficients: [], unit: 'kJ/(kg.K)' } }, 'coefficients', 'must hold at least 1'],
    [
      { specificHeat: { coefficients: [4], unit: 'W' } },
      'unit',
      'is no unit of specific heat; use for example J/(kg.K)',
    ],
  ])('refuses %j', (change, member, message) => {
    const faults = refusal({ ...stream, properties: { polynomial: { ...polynomial, ...change } } });
    expect(faults).toContainEqual({ field: `hot.properties.polynomial.specificHeat.${member}`, message });
  });
});

describe('a custom fluid that changes phase', () => {
  const boiling = { latentHeat: q(320, 'kJ/kg'), saturationTemperature: q(313.15, 'K') };
  const constants = { specificHeat: q(2.3, 'kJ/(kg.K)') };
  const row = (t: number) => ({ temperature: celsius(t), ...constants });

  it.each([
    ['constants', constants],
    ['a table', { table: [row(0), row(80)] }],
    [
      'polynomials',
      {
        polynomial: {
          from: celsius(0),
          to: celsius(80),
          specificHeat: { coefficients: [2.3], unit: 'kJ/(kg.K)' },
        },
      },
    ],
  ])('states its latent heat beside %s', (_how, properties) => {
    const { phaseChange } = makeFluid(specOf({ fluid: 'custom', properties: { ...properties, ...boiling } }));
    expect(phaseChange!.saturationTemperature).toBeCloseTo(40, 9);
    expect(phaseChange!.vapourEnthalpy(40) - phaseChange!.liquidEnthalpy(40)).toBeCloseTo(320e3, 6);
  });

  it('condenses at the temperature of its sensor where no saturation temperature is stated', () => {
    const { phaseChange } = makeFluid(
      specOf({ fluid: 'custom', properties: { ...constants, latentHeat: q(137.6, '[Btu_IT]/[lb_av]') } }),
    );
    expect(phaseChange!.saturationTemperature).toBeNull();
    // 1 Btu/lb is 2326 J/kg exactly.
    expect(phaseChange!.vapourEnthalpy(40) - phaseChange!.liquidEnthalpy(40)).toBeCloseTo(137.6 * 2326, 3);
  });

  it('asks for the latent heat where only a saturation temperature is stated', () => {
    const properties = { ...constants, saturationTemperature: celsius(40) };
    expect(refusal({ fluid: 'custom', properties })).toContainEqual({
      field: 'hot.properties.latentHeat',
      message: 'is required where a saturation temperature is stated',
    });
  });
});
