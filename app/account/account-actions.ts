'use server';

import { revalidatePath } from 'next/cache';
import { headers } from 'next/headers';
import { z } from 'zod';
import { type FormAnswer, refusal, textOf } from '@/app/access/form-answer';
import { openAction, openPlainAction } from '@/app/access/open-page';
import { setCookies } from '@/app/access/set-cookies';
import { parse } from '@/app/api/respond';
import { personNameSchema } from '@/lib/contract/people';
import { changeOwnPassword, endOtherSessions, endOwnSession, renameOwn } from '@/lib/work/people/own-account';

const nameSchema = z.object({ name: personNameSchema });

export async function renameSelfAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const fields = { name: textOf(form, 'name') };
  try {
    const context = await openAction('renameSelfAction');
    await renameOwn(context, parse(fields, nameSchema).name);
  } catch (error) {
    return refusal(error, fields);
  }
  revalidatePath('/', 'layout');
  return { kind: 'done', message: 'Saved.' };
}

/** The other browsers of this person are signed out with it. */
export async function changePasswordAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  try {
    const context = await openAction('changePasswordAction');
    const change = { current: textOf(form, 'current'), password: textOf(form, 'password') };
    await setCookies(await changeOwnPassword(context, change, await headers()));
  } catch (error) {
    return refusal(error);
  }
  revalidatePath('/account');
  return { kind: 'done', message: 'Changed. Every other browser is signed out.' };
}

export async function endSessionAction(form: FormData): Promise<void> {
  const context = await openPlainAction('endSessionAction', '/account');
  await endOwnSession(context, textOf(form, 'session'));
  revalidatePath('/account');
}

export async function endOtherSessionsAction(): Promise<void> {
  const context = await openPlainAction('endOtherSessionsAction', '/account');
  await endOtherSessions(context, await headers());
  revalidatePath('/account');
}
