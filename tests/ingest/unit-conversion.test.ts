import { describe, expect, it } from 'vitest';
import type { Sensor } from '@/lib/core/exchange/exchanger';
import { readFile } from './read-file';

/** Definitions that are exact by law: inch 0.0254 m, pound 0.453 592 37 kg, US gallon 231 in³, standard gravity. */
const INCH = 0.0254;
const POUND = 0.453_592_37;
const GALLON = 231 * INCH ** 3;
const FOOT = 12 * INCH;
const GRAVITY = 9.806_65;

/**
 * Factors from those definitions, and as printed to seven digits in NIST Special Publication 811 (2008), appendix B.8;
 * the printed figures are from memory.
 */
const FACTORS: { unit: string; sensor: Sensor; column: string; exact: number; printed: number | null }[] = [
  { unit: 'gpm', sensor: 'hotFlow', column: 'hot_flow', exact: GALLON / 60, printed: 6.30902e-5 },
  { unit: '[gal_us]/min', sensor: 'coldFlow', column: 'cold_flow', exact: GALLON / 60, printed: 6.30902e-5 },
  { unit: 'lb/h', sensor: 'hotFlow', column: 'hot_flow', exact: POUND / 3600, printed: 1.259979e-4 },
  { unit: '[lb_av]/h', sensor: 'coldFlow', column: 'cold_flow', exact: POUND / 3600, printed: 1.259979e-4 },
  { unit: 'ft3/min', sensor: 'hotFlow', column: 'hot_flow', exact: FOOT ** 3 / 60, printed: 4.719474e-4 },
  {
    unit: 'psi',
    sensor: 'hotPressureDrop',
    column: 'hot_dp',
    exact: (POUND * GRAVITY) / INCH ** 2,
    printed: 6.894757e3,
  },
  {
    unit: '[psi]',
    sensor: 'coldPressureDrop',
    column: 'cold_dp',
    exact: (POUND * GRAVITY) / INCH ** 2,
    printed: 6.894757e3,
  },
  {
    unit: "[in_i'H2O]",
    sensor: 'hotPressureDrop',
    column: 'hot_dp',
    exact: 1000 * GRAVITY * INCH,
    printed: 2.490889e2,
  },
  { unit: 'm3/h', sensor: 'hotFlow', column: 'hot_flow', exact: 1 / 3600, printed: null },
  { unit: 't/h', sensor: 'hotFlow', column: 'hot_flow', exact: 1 / 3.6, printed: null },
  { unit: 'L/s', sensor: 'coldFlow', column: 'cold_flow', exact: 1e-3, printed: null },
  { unit: 'mbar', sensor: 'hotPressureDrop', column: 'hot_dp', exact: 100, printed: null },
];

/** A thousand of a unit as a file says it, in SI. */
async function thousand(column: string, unit: string, sensor: Sensor, value = '1000'): Promise<number> {
  const { rows } = await readFile(`tag,time,${column}[${unit}]\nE-101,2026-01-31T10:00Z,${value}\n`);
  return rows[0]![sensor]!;
}

describe('units of measure', () => {
  it.each(FACTORS)('$unit in $column is $exact in SI', async ({ unit, sensor, column, exact, printed }) => {
    const value = await thousand(column, unit, sensor);
    expect(Math.abs(value / (1000 * exact) - 1)).toBeLessThan(1e-12);
    if (printed !== null) expect(Number((value / 1000).toPrecision(7))).toBe(printed);
  });

  // SP 811, B.8: t/°C = (t/°F − 32)/1.8; the points are exact.
  it.each([
    ['212', 100],
    ['32', 0],
    ['50', 10],
    ['-40', -40],
  ])('%s °F is %d °C, however the unit is written', async (written, celsius) => {
    for (const unit of ['[degF]', 'degF', '°F', 'F']) {
      expect(await thousand('hot_in', unit, 'hotIn', written)).toBeCloseTo(celsius, 12);
    }
  });

  it('reads every writing of brackets in the header', async () => {
    for (const column of [
      'hot_flow[[gal_us]/min]',
      'hot_flow [ [gal_us]/min ]',
      'hot_flow[gal_us]/min',
      'hot_flow (gpm)',
      'hot_flow[gpm]',
    ]) {
      const { rows } = await readFile(`tag,time,${column}\nE-101,2026-01-31T10:00Z,1000\n`);
      expect(rows[0]!.hotFlow! / (1000 * (GALLON / 60))).toBeCloseTo(1, 12);
    }
  });

  it('kelvin become degrees Celsius', async () => {
    expect(await thousand('cold_in', 'K', 'coldIn', '273.15')).toBeCloseTo(0, 12);
  });
});
