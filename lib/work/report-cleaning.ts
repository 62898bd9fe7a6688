import { AppError } from '@/lib/contract/app-error';
import type { CleaningRequest } from '@/lib/contract/cleaning-request';
import { inSi } from '@/lib/contract/quantity';
import type { UnitResult } from '@/lib/contract/results';
import { analyse } from './analyse';
import type { Context } from './context';
import { recordCleaning } from './record-cleaning';
import { showUnit } from './show-results';

const MS_PER_SECOND = 1000;

/**
 * Records a cleaning reported by another program and gives the unit's result with it.
 *
 * @throws AppError 'not-found' for an unknown tag, 'invalid-input' for one that has not happened yet
 */
export async function reportCleaning(
  context: Context,
  tag: string,
  cleaning: CleaningRequest,
): Promise<UnitResult> {
  const at = Date.parse(cleaning.at);
  if (at > context.now()) {
    throw new AppError('invalid-input', 'The cleaning lies in the future', [
      { field: 'at', message: 'record a cleaning once it is done' },
    ]);
  }
  const { method = null, cost = null, note = null, duration, by } = cleaning;
  const durationMs = duration ? Math.round(inSi(duration, 'duration') * MS_PER_SECOND) : null;
  await recordCleaning(context, { tag, at, method, cost, note, durationMs, by });
  await analyse(context, { tag });
  return showUnit(context, tag);
}
