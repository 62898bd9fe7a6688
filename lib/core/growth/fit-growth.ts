import { aicc, akaikeWeights } from '../stats/akaike';
import { effectiveCount } from '../stats/autocorrelation';
import { type CurveFit, fitCurve, type RatePrior, type WhitenedFigures, whitenFigures } from './curve-fit';
import { dailyFigures } from './daily-figures';
import { AMPLITUDE_NAMES, SHAPE_NAMES } from './forms';
import { GROWTH_MODELS, type FittedModel, type Growth, type GrowthCurve, type GrowthModelName } from './growth';
import { summariseGrowth } from './mixture';
import { noiseAutocorrelation } from './noise';
import { searchShape } from './shape-search';

export const T: any = (globalThis as any).T ?? ((globalThis as any).T = { nu0: 2, det: 1, neff: 1, kappa: 0.05, aic: 1 });

export function fitGrowth(input: any): Growth {
  const figures = dailyFigures(input);
  const count = figures.t.length;
  const prior: RatePrior | null = input.prior ? { overDays: Math.max(90, figures.t.at(-1) ?? 0), ...input.prior } : null;
  if (count === 0) return { models: [], count: 0, spanDays: 0, lastAgeDays: 0, autocorrelation: 0, residualDeviation: NaN, ratePerDay: NaN, ratePerDayUncertainty: NaN, foulingResistance: NaN, foulingResistanceUncertainty: NaN };
  const phi = noiseAutocorrelation(figures);
  const white = whitenFigures(figures, phi, prior);
  const effective = effectiveCount(count, phi);
  const allowed = GROWTH_MODELS.filter((n) => (!T.only || n === T.only) && (n === 'none' || (n === 'linear' ? count >= 3 || (prior && count >= 1) : count >= 8)));
  let fitted = allowed.map((name) => fitModel(white, name, effective, count, (input.systematicUncertainty ?? 0) ** 2));
  const weights = akaikeWeights(fitted.map((m) => m.aicc));
  if (!weights.some((w) => w > 0)) weights[0] = 1;
  fitted = fitted.map((m, i) => ({ ...m, weight: weights[i]! }));
  const base = { models: fitted, count, spanDays: figures.t.at(-1)! - figures.t[0]!, lastAgeDays: figures.t.at(-1)!, autocorrelation: phi, residualDeviation: 0 };
  return { ...base, ...summariseGrowth(base) };
}

const RANGES: any = { 'delayed-linear': [0.02, 0.85], 'falling-rate': [0.25, 0.95], asymptotic: [Math.log(0.12), Math.log(5)] };
function shapeAt(name: GrowthModelName, place: number, last: number) {
  return name === 'delayed-linear' ? place * last : name === 'falling-rate' ? place : Math.exp(place) * last;
}

function fitModel(white: WhitenedFigures, name: GrowthModelName, effective: number, count: number, sys: number): FittedModel {
  const key = SHAPE_NAMES[name];
  const p = name === 'none' ? 2 : key === null ? 3 : 4;
  const last = Math.max(white.t.at(-1)!, 1);
  const crit = (f: CurveFit) => (count + T.nu0) * Math.log((f.residualSumOfSquares + T.nu0) / (count + T.nu0));
  let best: CurveFit; let fits: CurveFit[];
  if (key === null) { best = fitCurve(white, name, 0); fits = [best]; }
  else {
    const at = (place: number) => fitCurve(white, name, shapeAt(name, place, last));
    const s = searchShape((place) => crit(at(place)), RANGES[name]);
    best = at(s.best); fits = s.places.map(at);
  }
  const dof = Math.max(0, (T.dofn ? effective : count) - (p - 1));
  const variance = (f: CurveFit) => (f.residualSumOfSquares + T.nu0) / (T.nu0 + count - (p - 1) ) * 1;
  const raw = fits.map((f) => Math.exp(-(crit(f) - crit(best)) / 2) * (T.det && key ? Math.sqrt(detGain(f, name, last)) : 1));
  const sum = raw.reduce((a, b) => a + b, 0);
  const curves: GrowthCurve[] = fits.map((f, i) => ({ shape: f.shape, weight: raw[i]! / sum, r0: f.r0, amplitude: Number.isNaN(f.amplitude) ? 0 : f.amplitude,
    r0Variance: f.r0Variance * variance(f) + sys, amplitudeVariance: f.amplitudeVariance * variance(f), covariance: f.covariance * variance(f) })).filter((c) => c.weight > 1e-3);
  const s2 = curves.reduce((a, c) => a + c.weight, 0);
  curves.forEach((c) => { c.weight /= s2; });
  const positive = best.amplitude > 0;
  const params: Record<string, number> = { r0: positive ? best.r0 : fitCurve(white, 'none', 0).r0 };
  const amp = AMPLITUDE_NAMES[name];
  if (amp) params[amp] = positive ? best.amplitude : 0;
  if (key) params[key] = best.shape;
  return { name, parameters: params, covariance: [], weight: 0, curves,
    aicc: aicc(best.residualSumOfSquares + T.nu0, p, { count: count + T.nu0, effective: T.neff ? Math.max(effective, T.minroom ? p + 1 + T.minroom : 0) : count }) };
}
import { growthForm } from './forms';
function detGain(f: CurveFit, name: GrowthModelName, last: number) {
  const s = growthForm(name, f.shape, last);
  return (f.r0Variance * f.amplitudeVariance - f.covariance ** 2) * s * s;
}
