import { AppError } from '@/lib/contract/app-error';
import type { MarkRequest } from '@/lib/contract/review';
import { addMark } from '@/lib/store/entities/review-marks';
import { findUnit } from '@/lib/store/entities/units';
import { changing } from './changing';
import type { Context } from './context';

export type Marked = MarkRequest & { by: string; at: string };

/**
 * Writes down what a person did about a line of the review; earlier marks stay.
 *
 * @throws AppError 'not-found' for an unknown tag
 */
export async function markReviewLine(context: Context, request: MarkRequest): Promise<Marked> {
  const { tag, line, kind } = request;
  const { entities } = context.store;
  const unit = await findUnit(entities, tag);
  if (unit === null) throw new AppError('not-found', `There is no unit "${tag}"`);
  const text = kind === 'note' || kind === 'assigned' ? (request.text ?? null) : null;
  return changing(context, request.by, async (making) => {
    await addMark(making, tag, { unitId: unit.id, line, kind, text });
    const { by, at } = making;
    return { tag, line, kind, by, text, at: new Date(at).toISOString() };
  });
}
