import { AppError } from '@/lib/contract/app-error';
import { findUnit, type StoredUnit } from '@/lib/store/entities/units';
import type { Context } from './context';

/** @throws AppError 'not-found' for an unknown tag */
export async function knownUnit(context: Context, tag: string): Promise<StoredUnit> {
  const unit = await findUnit(context.store.entities, tag);
  if (unit === null) throw new AppError('not-found', `There is no unit "${tag}"`);
  return unit;
}
