import type { Falls } from '@/lib/contract/fall-answers';
import { listFallAnswers } from '@/lib/store/entities/fall-answers';
import { findResult } from '@/lib/store/entities/results';
import { isoDay } from '@/lib/time/calendar-day';
import { isoInZone } from '@/lib/time/local-day';
import type { Context } from './context';
import { knownUnit } from './known-unit';
import { withdrawnInZone } from './withdrawn-in-zone';

/** Probable cleanings of a unit by its last results, and every answer given. @throws AppError 'not-found' for an unknown tag */
export async function showFalls(context: Context, tag: string): Promise<Falls> {
  const { id, site } = await knownUnit(context, tag);
  const { entities } = context.store;
  const [known, answers] = await Promise.all([findResult(entities, id), listFallAnswers(entities, id)]);
  const iso = (at: number) => isoInZone(at, site.timeZone);
  return {
    tag,
    probableCleanings: (known?.trend.probableCleanings ?? []).map((fall) => ({
      day: isoDay(fall.day),
      lastBefore: iso(fall.earliest),
      firstAfter: iso(fall.latest),
      before: fall.before,
      after: fall.after,
      fallUncertainty: fall.fallUncertainty,
      share: fall.share,
    })),
    answers: answers.map(({ day, givenAt, withdrawn, ...rest }) => ({
      ...rest,
      day: isoDay(day),
      givenAt: iso(givenAt),
      withdrawn: withdrawnInZone(withdrawn, site.timeZone),
    })),
  };
}
