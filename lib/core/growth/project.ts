import { findRoot } from '../fit/brent';
import type { Crossing, Growth } from './growth';
import { mixtureOf, probabilityAbove } from './mixture';

export function projectCrossing({ growth, limit, ageToday, horizonDays }: { growth: Growth; limit: number; ageToday: number; horizonDays: number }): Crossing {
  if (growth.models.length === 0) return { p10: null, p50: null, p90: null, withinHorizon: 0 };
  const m = mixtureOf(growth);
  const end = ageToday + horizonDays;
  const within = probabilityAbove(m, end, limit);
  const q = (p: number) => {
    if (within < p) return null;
    if (probabilityAbove(m, 0, limit) >= p) return 0;
    return findRoot((t) => probabilityAbove(m, t, limit) - p, 0, end, { tolerance: 1e-3 });
  };
  return { p10: q(0.1), p50: q(0.5), p90: q(0.9), withinHorizon: within };
}
