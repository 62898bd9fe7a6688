import type { CycleSpan } from '../cycles/split-cycles';
import { canProject } from '../growth/can-project';
import type { Band, Growth } from '../growth/growth';
import { projectBand } from '../growth/project-band';

/** Points of the projected band [-]: a smooth line at any width. */
const BAND_POINTS = 60;

export type BandInput = { cycle: CycleSpan; todayLocalDay: number; horizonDays: number };

/**
 * Projected growth of the running cycle from today to the horizon.
 *
 * @param input  running cycle, today as local day, horizon [days]
 * @param growth its growth [m²·K/W, or Pa for a pressure drop]
 * @returns P10, P50, P90 at 60 ages [unit of the growth]; null where it is too early to project
 * @range  any
 * @source METHODS §9
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function bandFromToday({ cycle, todayLocalDay, horizonDays }: BandInput, growth: Growth): Band | null {
  if (!canProject(growth)) return null;
  const ageToday = Math.max(0, todayLocalDay - cycle.startDay);
  const ages = new Float64Array(BAND_POINTS);
  for (let i = 0; i < BAND_POINTS; i++) ages[i] = ageToday + (horizonDays * i) / (BAND_POINTS - 1);
  return projectBand({ growth, ages });
}
