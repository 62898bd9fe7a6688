import type { Review, ReviewUnit, Urgency } from '@/lib/contract/review';
import { urgencyOf } from './urgency-of';

/** Units that stand together on the page, with the lines that put them there. */
export type ReviewGroup = { name: Urgency | 'seen'; title: string; units: ReviewUnit[] };

const TITLES: Record<ReviewGroup['name'], string> = {
  act: 'Act this week',
  look: 'Look into',
  know: 'Good to know',
  seen: 'Seen',
};

/** Units by their most urgent unseen line, all their unseen lines with them; what has been seen stands last, calmer. */
export function reviewGroups({ units }: Pick<Review, 'units'>): ReviewGroup[] {
  const open = units.map((unit) => ({ ...unit, lines: unit.lines.filter(({ isSeen }) => !isSeen) }));
  const seen = units.map((unit) => ({ ...unit, lines: unit.lines.filter(({ isSeen }) => isSeen) }));
  const groups = (['act', 'look', 'know'] as const).map((name) => ({
    name,
    units: open.filter((unit) => urgencyOf(unit) === name),
  }));
  return [...groups, { name: 'seen' as const, units: seen.filter(({ lines }) => lines.length > 0) }]
    .filter((group) => group.units.length > 0)
    .map((group) => ({ ...group, title: TITLES[group.name] }));
}
