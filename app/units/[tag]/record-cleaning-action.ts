'use server';

import { revalidatePath } from 'next/cache';
import { AppError } from '@/lib/contract/app-error';
import { formatInstant } from '@/lib/report/format/time';
import { readCleaningForm } from '@/lib/report/unit/cleaning-input';
import { analyse } from '@/lib/work/analyse';
import { openContext } from '@/lib/work/context';
import { readUnit } from '@/lib/work/read-unit';
import { recordCleaning } from '@/lib/work/record-event';

export type CleaningOutcome =
  | { kind: 'none' }
  | { kind: 'done'; message: string }
  | { kind: 'refused'; message: string; fields: Record<string, string> };

/** Records the cleaning of the form and brings the unit's results up to date. */
export async function recordCleaningAction(
  _before: CleaningOutcome,
  form: FormData,
): Promise<CleaningOutcome> {
  const fields = Object.fromEntries([...form].map(([name, value]) => [name, `${value}`]));
  try {
    const context = await openContext();
    const tag = fields.tag ?? '';
    const unit = await readUnit(context, tag, { from: 0, to: -1 });
    if (unit === null) throw new AppError('not-found', `There is no unit "${tag}"`);
    const { timeZone } = unit.record.site;
    const done = readCleaningForm(fields, { timeZone, now: context.now() });
    await recordCleaning(context, { tag, ...done });
    await analyse(context, { tag });
    revalidatePath('/', 'layout');
    return {
      kind: 'done',
      message: `Recorded: ${tag} cleaned ${formatInstant(done.at, timeZone)}. A new cycle begins there.`,
    };
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    const faults = error.faults.map(({ message }) => message).join('; ');
    return {
      kind: 'refused',
      message: faults === '' ? error.message : `${error.message}: ${faults}`,
      fields,
    };
  }
}
