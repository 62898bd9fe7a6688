import { describe, expect, it } from 'vitest';
import { fluidPlots, usedFluid } from '@/lib/report/setup/fluid-plot';
import { emptyDraft, emptyTableRow, type PropertiesDraft } from '@/lib/report/setup/unit-draft';
import { fluidCurves } from '@/lib/work/fluid-curves';

const blank = emptyDraft('si', null).hot.properties;
const row = (temperature: string, specificHeat: string, density = '') => ({
  ...emptyTableRow(),
  temperature,
  specificHeat,
  density,
});
const table = (...rows: PropertiesDraft['table']): PropertiesDraft => ({
  ...blank,
  by: 'table',
  table: rows,
});

describe('the plots of a custom fluid', () => {
  it('show what a table states, ascending, with a line through the points', () => {
    const [heat, density, ...none] = fluidPlots(table(row('80', '3,92', '1000'), row('2', '3.881', '1025')));
    expect(none).toEqual([]);
    expect(heat).toMatchObject({
      title: 'Specific heat',
      unit: 'kJ/(kg·K)',
      temperatureUnit: '°C',
      points: [
        { temperature: 2, value: 3.881 },
        { temperature: 80, value: 3.92 },
      ],
      note: null,
    });
    expect(heat!.line).toEqual(heat!.points);
    expect([heat!.across.min, heat!.across.max]).toEqual([0, 100]);
    expect(heat!.summary).toBe(
      'Specific heat from 2 to 80 °C, 2 points: least 3.881 at 2 °C, greatest 3.920 at 80 °C, in kJ/(kg·K).',
    );
    expect(density!.points.map(({ value }) => value)).toEqual([1025, 1000]);
  });

  it('say where a property is missing in some rows, as it is not used then', () => {
    const plots = fluidPlots(table(row('2', '4', '1025'), row('20', '4.1', '1020'), row('40', '4.1')));
    expect(plots.map(({ kind, note }) => [kind, note])).toEqual([
      ['specificHeat', null],
      ['density', 'Not used yet: 1 of 3 rows lack it'],
    ]);
  });

  it('wait for two points that can be read', () => {
    expect(fluidPlots(table(row('2', '4'), row('x', '4.1')))).toEqual([]);
    expect(fluidPlots(blank)).toEqual([]);
  });

  it('draw a flat property in the middle of its axis', () => {
    const [heat] = fluidPlots(table(row('0', '4'), row('50', '4')));
    expect(heat!.up.min).toBeLessThan(4);
    expect(heat!.up.max).toBeGreaterThan(4);
  });

  it('show polynomials in °C over their whole range, whatever unit that is stated in', () => {
    const properties: PropertiesDraft = {
      ...blank,
      by: 'polynomial',
      polynomial: {
        ...blank.polynomial,
        from: { value: '50', unit: '[degF]' },
        to: { value: '363.15', unit: 'K' },
        specificHeat: { value: '3.9 2e-3', unit: 'kJ/(kg.K)' },
      },
    };
    const [heat, ...none] = fluidPlots(properties);
    expect(none).toEqual([]);
    expect(heat!.points).toEqual([]);
    expect(heat!.line[0]).toEqual({ temperature: 10, value: expect.closeTo(3.92, 12) });
    expect(heat!.line.at(-1)).toEqual({ temperature: expect.closeTo(90, 9), value: expect.closeTo(4.08, 9) });
    expect(heat!.summary).toContain('a curve: least 3.920 at 10 °C');
    const reversed = { ...properties.polynomial, from: { value: '400', unit: 'K' } };
    expect(fluidPlots({ ...properties, polynomial: reversed })).toEqual([]);
  });
});

describe('the properties that are used for a fluid the product knows', () => {
  it('are those of the stream as stated, in the reader’s units', () => {
    const water = usedFluid(fluidCurves({ fluid: 'water' })!, 'si');
    expect(water.said).toBe('water at 0.5 MPa, 0.0 to 151.8 °C. Outside there is no number.');
    expect(water.plots.map(({ kind }) => kind)).toEqual([
      'specificHeat',
      'density',
      'viscosity',
      'conductivity',
    ]);
    // IAPWS-IF97 at 0 °C and 0.5 MPa: 1000.03 kg/m³.
    expect(water.plots[1]!.line[0]!.value).toBeCloseTo(1000.03, 1);
    const us = usedFluid(fluidCurves({ fluid: 'water' })!, 'us');
    expect(us.said).toContain('32.0 to 305.3 °F');
    expect(us.plots[1]).toMatchObject({ unit: 'lb/ft³', temperatureUnit: '°F' });
  });

  it('leave out what is not stated, and what ends sooner than the rest', () => {
    const oil = usedFluid(fluidCurves({ fluid: 'oil', density: { value: 868, unit: 'kg/m3' } })!, 'si');
    expect(oil.plots.map(({ kind }) => kind)).toEqual(['specificHeat', 'density', 'conductivity']);
    expect(oil.plots[0]!.line.at(-1)!.temperature).toBe(200);
    expect(oil.plots[1]!.line.at(-1)!.temperature).toBe(150);
  });

  it.each([[{ fluid: 'oil' }], [{ fluid: 'water', pressure: { value: 1, unit: 'Pa' } }], [null], ['water']])(
    'wait for a stream that says enough: %j',
    (stream) => {
      expect(fluidCurves(stream)).toBeNull();
    },
  );
});
