import { describe, expect, it } from 'vitest';
import { streamNote } from '@/lib/report/unit/stream-note';

const q = (value: number, unit: string) => ({ value, unit });
const heat = { specificHeat: q(3.9, 'kJ/(kg.K)') };
const film = { viscosity: q(1, 'mPa.s'), conductivity: q(0.6, 'W/(m.K)') };
const celsius = (value: number) => q(value, 'Cel');
const uncorrected = 'the clean film is corrected for flow, not for temperature.';

describe('the note on a stream of a datasheet', () => {
  it('says nothing of a fluid that the product knows', () => {
    expect(streamNote({ fluid: 'water' })).toBeNull();
    expect(streamNote({ fluid: 'custom', properties: { ...heat, ...film } })).toBeNull();
  });

  it('says that an oil without viscosities has no film corrected for temperature, and names those stated', () => {
    const oil = { fluid: 'oil' as const, density: q(868, 'kg/m3') };
    expect(streamNote(oil)).toBe(`Viscosity not stated: ${uncorrected}`);
    const viscosities: [object, object] = [
      { temperature: celsius(40), value: q(46, 'mm2/s') },
      { temperature: celsius(100), value: q(6.8, 'mm2/s') },
    ];
    expect(streamNote({ ...oil, viscosities } as Parameters<typeof streamNote>[0])).toBe(
      'Viscosity 46 mm²/s at 40 °C and 6.8 mm²/s at 100 °C, by ASTM D341 between and beyond.',
    );
  });

  it('says the same of a custom fluid that lacks viscosity or conductivity', () => {
    const note = `Viscosity and conductivity not both stated: ${uncorrected}`;
    expect(streamNote({ fluid: 'custom', properties: heat })).toBe(note);
    const row = (t: number, rest: object) => ({ temperature: celsius(t), ...heat, ...rest });
    expect(streamNote({ fluid: 'custom', properties: { table: [row(0, film), row(50, {})] } })).toBe(note);
    expect(streamNote({ fluid: 'custom', properties: { table: [row(0, film), row(50, film)] } })).toBeNull();
  });

  it('names the range of polynomials, and the latent heat with where it counts', () => {
    const polynomial = {
      from: celsius(-20),
      to: celsius(50),
      specificHeat: { coefficients: [1.3], unit: 'kJ/(kg.K)' },
    };
    expect(streamNote({ fluid: 'custom', properties: { polynomial, latentHeat: q(199, 'kJ/kg') } })).toBe(
      'By polynomials from -20 °C to 50 °C. Latent heat 199 kJ/kg, at the inlet temperature.',
    );
    const at = { latentHeat: q(199, 'kJ/kg'), saturationTemperature: celsius(5) };
    expect(streamNote({ fluid: 'custom', properties: { ...heat, ...at } })).toBe(
      'Latent heat 199 kJ/kg, at 5 °C.',
    );
  });
});
