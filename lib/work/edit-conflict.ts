import { AppError } from '@/lib/contract/app-error';
import { changeInWords } from '@/lib/report/changes/change-words';
import { formatInstant } from '@/lib/report/format/time';
import { type ChangeFilter, listChanges } from '@/lib/store/entities/change-records';
import type { Context } from './context';

/** Changes of others that a refusal names. */
const MOST_NAMED = 3;

export type Superseded = {
  /** What it is, as a sentence begins with it. */
  what: string;
  timeZone: string;
  /** Where its changes are written down. */
  changes: ChangeFilter;
  /** Which field of the request said what had been seen. */
  field?: string;
};

/**
 * That somebody else has changed a thing since it was read: who, when, and what. Whoever is refused looks at that, and then makes
 * the own change to the newest state.
 */
export async function editConflict(
  context: Context,
  { what, timeZone, changes, field = 'revision' }: Superseded,
): Promise<AppError> {
  const last = await listChanges(context.store.entities, changes, MOST_NAMED);
  // One edit writes several lines; those of an earlier edit were seen already.
  const named = last.filter(({ at, actor }) => at === last[0]!.at && actor.name === last[0]!.actor.name);
  const said = named.map((change) => changeInWords(change, timeZone)).join('; ');
  const who =
    last[0] === undefined ? 'somebody' : `${last[0].actor.name}, ${formatInstant(last[0].at, timeZone)}`;
  return new AppError('conflict', `${what} has been changed since you opened it, by ${who}`, [
    {
      field,
      message: `${said === '' ? '' : `${said}. `}Look at it as it is now, then make your change to that`,
    },
  ]);
}
