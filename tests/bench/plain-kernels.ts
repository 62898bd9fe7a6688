import { makeFluid } from '@/lib/core/fluids/make-fluid';
import type { Kind } from './kernel-data';
import type { States } from './kernel-ours';

const CAPACITY = 4180;

/** One reading as an object, as a program is usually written that does not mind its speed. */
type PlainReading = {
  hotIn: number;
  hotOut: number;
  coldIn: number;
  coldOut: number;
  hotFlow: number;
};

export function plainReadings([hotIn, hotOut, coldIn, coldOut, hotFlow]: States): PlainReading[] {
  return Array.from(hotIn!, (value, i) => ({
    hotIn: value,
    hotOut: hotOut![i]!,
    coldIn: coldIn![i]!,
    coldOut: coldOut![i]!,
    hotFlow: hotFlow![i]!,
  }));
}

/** The properties of water, an object per reading. */
export function plainProperties(readings: PlainReading[]): Float64Array[] {
  const water = makeFluid({ kind: 'water', pressure: null });
  const found = readings.map(({ hotIn }) => ({
    density: water.density!(hotIn),
    specificHeat: water.specificHeat(hotIn),
    viscosity: water.viscosity!(hotIn),
    conductivity: water.conductivity!(hotIn),
  }));
  const names = ['density', 'specificHeat', 'viscosity', 'conductivity'] as const;
  return names.map((name) => Float64Array.from(found, (one) => one[name]));
}

/** NTU, UA, LMTD and F by the textbook formulas, an object per reading. */
export function plainConductances(kind: Kind, readings: PlainReading[]): Float64Array[] {
  const found = readings.map(({ hotIn, hotOut, coldIn, coldOut, hotFlow }) => {
    const duty = hotFlow * CAPACITY * (hotIn - hotOut);
    const rates = [duty / (hotIn - hotOut), duty / (coldOut - coldIn)];
    const smallest = Math.min(...rates);
    const ratio = smallest / Math.max(...rates);
    const effectiveness = duty / (smallest * (hotIn - coldIn));
    const counter = Math.log((1 - effectiveness * ratio) / (1 - effectiveness)) / (1 - ratio);
    const root = Math.sqrt(1 + ratio ** 2);
    const e = (2 / effectiveness - (1 + ratio)) / root;
    const ntu = kind === 'counter' ? counter : -Math.log((e - 1) / (e + 1)) / root;
    const [first, second] = [hotIn - coldOut, hotOut - coldIn];
    const lmtd = (first - second) / Math.log(first / second);
    return { ntu, conductance: ntu * smallest, lmtd, correction: counter / ntu };
  });
  const names = ['ntu', 'conductance', 'lmtd', 'correction'] as const;
  return names.map((name) => Float64Array.from(found, (one) => one[name]));
}
