import type { StepDown } from '@/lib/core/cycles/find-step-downs';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { formatFigureText, formatNumber } from '@/lib/report/format/figure';
import { formatDay, formatInstant } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { isoDay } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { localDateTime } from '@/lib/time/local-instant';
import { type UnitAddress, unitHref } from './unit-address';

/** A fall of the fouling that nobody explained, put to a person. */
export type FallQuestion = {
  /** First day after the fall as `YYYY-MM-DD`: what an answer is about. */
  day: string;
  title: string;
  sentence: string;
  /** What holds until somebody answers. */
  standing: string;
  /** The middle of the gap between the readings before and after, as a form's field writes it. */
  at: string;
  showHref: string;
};

/** Days shown before and after a fall (own choice). */
const DAYS_BESIDE = 45;

/** What each answer does; the same for every fall. */
export const ANSWER_EFFECTS = {
  cleaning:
    'A cleaning is recorded then. It gets its result, and the figures since count as a cycle of their own for good.',
  'not-cleaning':
    'The trend goes on across the fall as one cycle, and this is not asked again unless the answer is withdrawn.',
} as const;

/** The falls of the record that wait for an answer, the newest first. */
export function fallQuestions(
  trend: UnitTrend | null,
  { address, system, timeZone }: { address: UnitAddress; system: UnitSystem; timeZone: string },
): FallQuestion[] {
  if (trend === null) return [];
  const running = trend.cycles.at(-1);
  const questions = trend.probableCleanings.map((fall): FallQuestion => {
    const middle = (fall.earliest + fall.latest) / 2;
    const isRunning = running?.began === 'probable-cleaning' && fall.day >= running.startDay;
    const today = running?.endDay ?? fall.day;
    return {
      day: isoDay(fall.day),
      title: `Was it cleaned around ${formatDay(localDay(middle, timeZone))}?`,
      sentence: sentenceOf(fall, system, timeZone),
      standing: isRunning
        ? 'Until this is answered, the trend is fitted to the figures since the fall only.'
        : 'Until this is answered, the figures before and after the fall are taken as two cycles.',
      at: localDateTime(middle, timeZone),
      showHref: unitHref(
        address,
        {
          period: 'custom',
          fromDay: fall.day - DAYS_BESIDE,
          toDay: Math.min(fall.day + DAYS_BESIDE, Math.max(today, fall.day)),
          reading: null,
        },
        'charts',
      ),
    };
  });
  return questions.reverse();
}

function sentenceOf(
  { fall, fallUncertainty, share, earliest, latest }: StepDown,
  system: UnitSystem,
  timeZone: string,
): string {
  const size = formatFigureText(fall, 'foulingResistance', system, { uncertainty: fallUncertainty });
  const ofAllowance = share === null ? '' : ` (${formatNumber(share * 100, 0)} % of the allowance)`;
  return `The fouling fell by ${size}${ofAllowance} between ${formatInstant(earliest, timeZone)} and ${formatInstant(latest, timeZone)}, and no cleaning is recorded.`;
}
