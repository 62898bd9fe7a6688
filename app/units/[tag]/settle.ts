import { revalidatePath } from 'next/cache';
import { openAction } from '@/app/access/open-page';
import type { ActionName } from '@/lib/auth/rules';
import { AppError } from '@/lib/contract/app-error';
import { analyse } from '@/lib/work/analyse';
import type { Context } from '@/lib/work/context';
import type { FormOutcome } from './form-outcome';

type Fields = Record<string, string>;

const KEPT = 'What you typed is kept here: send it again to put it over theirs, or cancel to leave theirs';

/** Does what a form asks for its unit if the policy admits it, brings the unit's results up to date, and tells the outcome. */
export async function settle(
  name: ActionName,
  form: FormData,
  act: (context: Context, asked: { tag: string; fields: Fields }) => Promise<string>,
): Promise<FormOutcome> {
  const fields = Object.fromEntries([...form].map(([name, value]) => [name, `${value}`]));
  const tag = fields.tag ?? '';
  try {
    const context = await openAction(name);
    const message = await act(context, { tag, fields });
    await analyse(context, { tag });
    revalidatePath('/', 'layout');
    return { kind: 'done', message };
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    const errors = Object.fromEntries(error.faults.map(({ field, message }) => [field, message]));
    // The page then shows what the other did; what was typed stays in the form, which can be sent on top of that.
    if (error.code === 'conflict') revalidatePath('/', 'layout');
    const message = 'revision' in errors ? `${error.message}. ${KEPT}` : error.message;
    return { kind: 'refused', message, errors, fields };
  }
}
