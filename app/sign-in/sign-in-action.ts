'use server';

import { revalidatePath } from 'next/cache';
import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { type FormAnswer, refusal, textOf } from '@/app/access/form-answer';
import { openAction } from '@/app/access/open-page';
import { setCookies } from '@/app/access/set-cookies';
import { wayBack } from '@/app/access/way-back';
import { signIn } from '@/lib/work/people/sign-in';

/** Signs in and goes to the page that was asked for. */
export async function signInAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const email = textOf(form, 'email');
  try {
    const context = await openAction('signInAction');
    const credentials = { email, password: textOf(form, 'password') };
    await setCookies(await signIn(context, credentials, await headers()));
  } catch (error) {
    return refusal(error, { email });
  }
  revalidatePath('/', 'layout');
  return redirect(wayBack(form.get('to')));
}
