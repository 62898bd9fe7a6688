import { normalCdf } from '../stats/normal';
import { growthForm, growthFormSlope } from './forms';
import type { Growth, GrowthCurve, GrowthModelName } from './growth';

/** How far, relative to the growth still to come, the future may leave the fitted curve. */
const SIGNIFICANT = 4;
const SLICES = 32;

/** One curve with the weight it has among all curves of all models. */
type Component = { name: GrowthModelName; weight: number; shape: number; r0: number; amplitude: number; vr: number; va: number; cov: number };

export type Mixture = { components: Component[]; lastAgeDays: number; kappa: number };

export function mixtureOf(growth: Pick<Growth, 'models' | 'lastAgeDays'>): Mixture {
  const components: Component[] = [];
  for (const model of growth.models) {
    for (const curve of model.curves) {
      const weight = model.weight * curve.weight;
      if (weight > 1e-4) pushCurve(components, model.name, weight, curve);
    }
  }
  const sum = components.reduce((a, c) => a + c.weight, 0);
  for (const c of components) c.weight /= sum;
  return { components, lastAgeDays: growth.lastAgeDays, kappa: (globalThis as any).T?.kappa ?? 0.05 };
}

/** A curve whose amplitude is not clearly positive is cut into slices over the positive part of its distribution. */
function pushCurve(out: Component[], name: GrowthModelName, weight: number, c: GrowthCurve): void {
  const sd = Math.sqrt(c.amplitudeVariance);
  if (name === 'none' || sd === 0 || c.amplitude > SIGNIFICANT * sd) {
    out.push({ name, weight, shape: c.shape, r0: c.r0, amplitude: c.amplitude, vr: c.r0Variance, va: c.amplitudeVariance, cov: c.covariance });
    return;
  }
  const low = Math.max(0, c.amplitude - SIGNIFICANT * sd);
  const high = Math.max(c.amplitude, 0) + SIGNIFICANT * sd;
  const width = (high - low) / SLICES;
  const slope = c.covariance / c.amplitudeVariance;
  const rest = Math.max(0, c.r0Variance - c.covariance * slope);
  let sum = 0;
  const weights: number[] = [];
  for (let i = 0; i < SLICES; i++) {
    const z = (low + (i + 0.5) * width - c.amplitude) / sd;
    const w = Math.exp(-(z * z - (c.amplitude < 0 ? (c.amplitude / sd) ** 2 : 0)) / 2);
    weights.push(w);
    sum += w;
  }
  for (let i = 0; i < SLICES; i++) {
    const a = low + (i + 0.5) * width;
    const w = (weight * weights[i]!) / sum;
    if (w > 1e-5) out.push({ name, weight: w, shape: c.shape, r0: c.r0 + slope * (a - c.amplitude), amplitude: a, vr: rest, va: (width * width) / 12, cov: 0 });
  }
}

/** P(smooth fouling at age t ≥ level). */
export function probabilityAbove({ components, lastAgeDays, kappa }: Mixture, t: number, level: number): number {
  let sum = 0;
  for (const c of components) {
    const g = growthForm(c.name, c.shape, t);
    let v = c.vr + g * (2 * c.cov + g * c.va);
    if (t > lastAgeDays) {
      const ahead = kappa * c.amplitude * (g - growthForm(c.name, c.shape, lastAgeDays));
      v += ahead * ahead;
    }
    sum += c.weight * normalCdf((c.r0 + c.amplitude * g - level) / Math.sqrt(v));
  }
  return sum;
}

export function summariseGrowth(growth: Pick<Growth, 'models' | 'lastAgeDays'>) {
  const { components, lastAgeDays: t } = mixtureOf(growth);
  let level = 0, level2 = 0, rate = 0, rate2 = 0;
  for (const c of components) {
    const g = growthForm(c.name, c.shape, t);
    const d = growthFormSlope(c.name, c.shape, Math.max(t, 1));
    const m = c.r0 + c.amplitude * g;
    level += c.weight * m;
    level2 += c.weight * (m * m + c.vr + g * (2 * c.cov + g * c.va));
    const r = c.amplitude * d;
    rate += c.weight * r;
    rate2 += c.weight * (r * r + d * d * c.va);
  }
  return { foulingResistance: level, foulingResistanceUncertainty: Math.sqrt(Math.max(0, level2 - level ** 2)), ratePerDay: rate, ratePerDayUncertainty: Math.sqrt(Math.max(0, rate2 - rate ** 2)) };
}
