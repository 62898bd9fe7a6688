'use server';

import { revalidatePath } from 'next/cache';
import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { openAction } from '@/app/access/open-page';
import { setCookies } from '@/app/access/set-cookies';
import { wayBack } from '@/app/access/way-back';
import { signInToDemo } from '@/lib/work/people/sign-in-demo';

/** Opens an account of the demonstration, on this machine only. */
export async function openDemoAction(form: FormData): Promise<void> {
  const context = await openAction('openDemoAction');
  await setCookies(await signInToDemo(context, `${form.get('account')}`, await headers()));
  revalidatePath('/', 'layout');
  redirect(wayBack(form.get('to')));
}
