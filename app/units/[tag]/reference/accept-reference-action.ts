'use server';

import { revalidatePath } from 'next/cache';
import { openAction } from '@/app/access/open-page';
import { AppError } from '@/lib/contract/app-error';
import { acceptFromForm } from '@/lib/work/accept-from-form';

export type AcceptOutcome =
  | { kind: 'none' }
  | { kind: 'done'; message: string }
  | { kind: 'refused'; message: string; errors: Record<string, string>; fields: Record<string, string> };

/** Accepts the reference that the page worked out, and brings the unit's results up to date. */
export async function acceptReferenceAction(_before: AcceptOutcome, form: FormData): Promise<AcceptOutcome> {
  const fields = Object.fromEntries([...form].map(([name, value]) => [name, `${value}`]));
  try {
    const { number } = await acceptFromForm(await openAction('acceptReferenceAction'), fields);
    revalidatePath('/', 'layout');
    return {
      kind: 'done',
      message: `Accepted as clean reference ${number}. The results were worked out anew with it; earlier references are kept.`,
    };
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    if (error.code === 'conflict') revalidatePath('/', 'layout');
    const errors = Object.fromEntries(error.faults.map(({ field, message }) => [field, message]));
    const said = error.faults.map(({ message }) => message).join('; ');
    return {
      kind: 'refused',
      message: said === '' ? error.message : `${error.message}: ${said}`,
      errors,
      fields,
    };
  }
}
