import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { formatFigureText, formatNumber } from '@/lib/report/format/figure';
import { formatInstant } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';

/** Within this many standard uncertainties of their difference two figures agree [-] (JCGM 100, annex G: about 95 of 100). */
const AGREES_WITHIN = 2;

/** A spot check beside the unit's trend: whether the two agree, in words. */
export type AgainstTrend = { agrees: boolean | null; sentence: string };

type Checked = { foulingResistance: number; uncertainty: number };

/** Compares a check's fouling resistance with the smooth value of today, by the uncertainties of both. */
export function againstTrend(
  { foulingResistance, uncertainty }: Checked,
  trend: UnitTrend | null,
  { now, timeZone, system }: { now: number; timeZone: string; system: UnitSystem },
): AgainstTrend {
  const smooth = trend?.foulingResistance ?? null;
  const spread = trend?.foulingResistanceUncertainty ?? null;
  if (smooth === null || spread === null) {
    return { agrees: null, sentence: 'The unit has no trend of today to compare this with.' };
  }
  const difference = foulingResistance - smooth;
  const combined = Math.hypot(uncertainty, spread);
  const text = (value: number, own: number) =>
    formatFigureText(value, 'foulingResistance', system, { uncertainty: own });
  const smoothText = `the unit’s smooth value of ${formatInstant(now, timeZone)}, ${text(smooth, spread)}`;
  if (!(combined > 0)) return { agrees: null, sentence: `Beside it stands ${smoothText}.` };
  const multiple = Math.abs(difference) / combined;
  const multipleText = `${formatNumber(multiple, 1)} u`;
  const agrees = multiple <= AGREES_WITHIN;
  const words = agrees
    ? `Agrees with ${smoothText}: they differ by ${multipleText}`
    : `Differs by ${multipleText} from ${smoothText}: this check finds the unit ${difference > 0 ? 'dirtier' : 'cleaner'}`;
  return {
    agrees,
    sentence: `${words} (u = ${text(combined, combined).replace(/ ± \S+/, '')}, both taken together).`,
  };
}
