import type { Review, ReviewLine, Said } from '@/lib/contract/review';
import { NEAR_LIMIT_DAYS, NEAR_LIMIT_SHARE, NO_DATA_DAYS } from '@/lib/core/pipeline/unit-state';
import { formatDay } from '../format/time';
import { countOf } from '../format/words';
import { monthsInWords } from '../unit/clean-by-statement';
import { SILENT_DAYS, USABLE_FALL } from './data-changes';

/** How many units need what, in parts: the first is what a person came for. */
export function countsInWords({ counts }: Pick<Review, 'counts'>): { main: string; rest: string } {
  const { act, look, know, seen, unchanged, units } = counts;
  const main =
    act === 0
      ? 'Nothing needs somebody this week'
      : `${countOf(act, 'unit')} ${act === 1 ? 'needs' : 'need'} somebody this week`;
  const rest = [
    ...(look > 0 ? [`${look} to look into`] : []),
    ...(know > 0 ? [`${know} good to know`] : []),
    ...(seen > 0 ? [`${seen} seen`] : []),
    `${unchanged} of ${units} without a change`,
  ];
  return { main, rest: rest.join(', ') };
}

/** The clean-by day of a statement in a few words. */
export function cleanByInShort({ state, cleanBy }: Said): string {
  const { p50, crossedOn, withinHorizon, horizonDays } = cleanBy;
  if (state === 'no-data') return 'no clean-by day without data';
  if (state === 'over-limit') return crossedOn === null ? '' : `over since ${formatDay(crossedOn)}`;
  if (withinHorizon === null) return 'too early to project';
  return p50 === null ? `not within ${monthsInWords(horizonDays)}` : `projected clean-by ${formatDay(p50)}`;
}

/** A mark of a person, in a sentence without its day. */
export function markInWords({ kind, text, by }: ReviewLine['marks'][number]): string {
  switch (kind) {
    case 'note':
      return `${by}: ${text}`;
    case 'assigned':
      return `assigned to ${text} by ${by}`;
    case 'seen':
      return `seen by ${by}`;
    case 'reopened':
      return `opened again by ${by}`;
  }
}

const DATA_KINDS: ReviewLine['kind'][] = ['no-data', 'data-worse', 'suspect'];

/** Whether any line is about a cleaning, so that the cautions must stand beside it. */
export function isCleaningNamed({ units }: Pick<Review, 'units'>): boolean {
  return units.some(({ lines }) => lines.some(({ kind }) => !DATA_KINDS.includes(kind)));
}

/** The rules by which lines are chosen, for whoever wonders why something is, or is not, listed. */
export const REVIEW_RULES: { name: string; rule: string }[] = [
  {
    name: 'Over or near a limit',
    rule: `Newly over its governing limit; newly near it: projected to reach it within ${NEAR_LIMIT_DAYS} days, or ${100 * NEAR_LIMIT_SHARE} % of it used. After a cleaning either is news again.`,
  },
  {
    name: 'Clean-by day moved',
    rule: 'The P50 now lies outside the P10 to P90 stated then: it moved by more than its own uncertainty. Out of the horizon counts as beyond its end. Not told beside a cleaning or a new state, which explain it.',
  },
  {
    name: 'No data',
    rule: `No usable figure for ${NO_DATA_DAYS} days, or no reading at all for more than ${SILENT_DAYS}.`,
  },
  {
    name: 'Data worse',
    rule: `The usable share of the last 30 days fell by at least ${100 * USABLE_FALL} percentage points (three whole days), or most readings are lost to another cause than then; or the data have become suspect: a fault leaves out more than a twentieth of the readings, or the heat balance has begun to drift.`,
  },
  {
    name: 'Cleanings',
    rule: 'Recorded since that day, that day included; and falls of the fouling that look like a cleaning, found since and not answered.',
  },
];

/** How many marks are shown, and the newest of them, to be read out when it has been kept. */
export function lastMarkInWords({ units }: Pick<Review, 'units'>): { marks: number; lastMark: string } {
  const all = units.flatMap(({ tag, lines }) =>
    lines.flatMap(({ marks }) => marks.map((mark) => ({ tag, mark, at: Date.parse(mark.at) }))),
  );
  const last = all.reduce<(typeof all)[number] | null>(
    (newest, each) => (newest === null || each.at >= newest.at ? each : newest),
    null,
  );
  return { marks: all.length, lastMark: last === null ? '' : `${last.tag}: ${markInWords(last.mark)}` };
}
