import { currencySign, formatNumber } from '@/lib/report/format/figure';
import { ucumInWords } from '@/lib/report/format/ucum-words';

/** Units of energy that prices are quoted in, the usual one first. */
export const ENERGY_UNITS = [
  { code: 'kW.h', label: 'kWh' },
  { code: 'MW.h', label: 'MWh' },
  { code: 'MJ', label: 'MJ' },
  { code: 'GJ', label: 'GJ' },
  { code: '10*6.[Btu_IT]', label: 'MMBtu' },
] as const;

/** A unit of energy as people write it: `kW.h` → kWh. */
export function energyUnitInWords(code: string): string {
  return ENERGY_UNITS.find((unit) => unit.code === code)?.label ?? ucumInWords(code);
}

/** "0.042 € per kWh", to the digits it was stated with. */
export function priceText({ amount, per }: { amount: number; per: string }, currency: string): string {
  return `${asStated(amount)} ${currencySign(currency)} per ${energyUnitInWords(per)}`;
}

/** "0.2 kg CO₂e per kWh", to the digits it was stated with. */
export function factorText({ kg, per }: { kg: number; per: string }): string {
  return `${asStated(kg)} kg CO₂e per ${energyUnitInWords(per)}`;
}

/** A number with the decimals it was written with. */
function asStated(value: number): string {
  const [, decimals = ''] = `${value}`.split('.');
  return formatNumber(value, /e/.test(`${value}`) ? MOST_DECIMALS : decimals.length);
}

/** Decimals of a number too small to be written out [-]. */
const MOST_DECIMALS = 10;
