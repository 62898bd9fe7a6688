'use server';

import { revalidatePath } from 'next/cache';
import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { type FormAnswer, refusal, textOf } from '@/app/access/form-answer';
import { openAction } from '@/app/access/open-page';
import { setCookies } from '@/app/access/set-cookies';
import { parse } from '@/app/api/respond';
import { accountSchema } from '@/lib/contract/people';
import { startFirst } from '@/lib/work/people/first-run';

const firstSchema = accountSchema.omit({ role: true });

/** Makes the first account and goes to the fleet, which says how to begin. */
export async function startFirstAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const fields = { name: textOf(form, 'name'), email: textOf(form, 'email'), code: textOf(form, 'code') };
  try {
    const context = await openAction('startFirstAction');
    const account = { ...parse(fields, firstSchema), code: fields.code, password: textOf(form, 'password') };
    await setCookies(await startFirst(context, account, await headers()));
  } catch (error) {
    return refusal(error, fields);
  }
  revalidatePath('/', 'layout');
  return redirect('/');
}
