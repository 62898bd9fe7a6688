import { AppError } from '@/lib/contract/app-error';
import type { VerdictRequest, Verdicts } from '@/lib/contract/verdicts';
import { addVerdict } from '@/lib/store/entities/verdicts';
import { localDay } from '@/lib/time/local-clock';
import { analyse } from './analyse';
import { changing } from './changing';
import type { Context } from './context';
import { knownUnit } from './known-unit';
import { showVerdicts } from './read-verdicts';

/**
 * Takes a person's word on the readings of a period; the unit's figures from there on are due for analysis.
 *
 * @returns number of the verdict
 * @throws AppError 'not-found' for an unknown tag, 'invalid-input' for a period that has not been yet
 */
export async function judgePeriod(
  context: Context,
  tag: string,
  { from, to, verdict, note, by }: VerdictRequest,
): Promise<number> {
  const { id, site } = await knownUnit(context, tag);
  const period = { from: Date.parse(from), to: Date.parse(to) };
  const now = context.now();
  if (localDay(period.to - 1, site.timeZone) > localDay(now, site.timeZone)) {
    throw new AppError('invalid-input', 'Readings that are still to come cannot be judged', [
      { field: 'to', message: 'end the period by the end of today' },
    ]);
  }
  return changing(context, by, (making) =>
    addVerdict(making, { unitId: id, tag }, { ...period, verdict, note }),
  );
}

/** Takes one from another program, which is answered with all of them once the results are up to date. */
export async function takeVerdict(context: Context, tag: string, request: VerdictRequest): Promise<Verdicts> {
  await judgePeriod(context, tag, request);
  await analyse(context, { tag });
  return showVerdicts(context, tag);
}
