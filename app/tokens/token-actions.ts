'use server';

import { revalidatePath } from 'next/cache';
import { openAction } from '@/app/access/open-page';
import type { FormOutcome } from '@/app/units/[tag]/form-outcome';
import { AppError } from '@/lib/contract/app-error';
import { makeToken, withdrawToken } from '@/lib/work/tokens';
import type { TokenOutcome } from './token-outcome';
import { tokenRequestOf } from './token-request-of';

/** Makes the token that the form asks for, and shows its secret this once. */
export async function makeTokenAction(_before: TokenOutcome, form: FormData): Promise<TokenOutcome> {
  try {
    const context = await openAction('makeTokenAction');
    const { token, secret } = await makeToken(context, tokenRequestOf(form));
    revalidatePath('/tokens');
    return { kind: 'made', name: token.name, secret };
  } catch (error) {
    return refused(error, form);
  }
}

/** Revokes a token for good. */
export async function withdrawTokenAction(_before: FormOutcome, form: FormData): Promise<FormOutcome> {
  try {
    const context = await openAction('withdrawTokenAction');
    const { name } = await withdrawToken(context, Number(form.get('id')));
    revalidatePath('/tokens');
    return { kind: 'done', message: `${name} is revoked.` };
  } catch (error) {
    return refused(error, form);
  }
}

function refused(error: unknown, form: FormData): FormOutcome {
  if (!(error instanceof AppError)) throw error;
  const errors = Object.fromEntries(error.faults.map(({ field, message }) => [field, message]));
  const fields = Object.fromEntries([...form.keys()].map((key) => [key, form.getAll(key).join(',')]));
  return { kind: 'refused', message: error.message, errors, fields };
}
