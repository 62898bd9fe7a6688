'use server';

import { revalidatePath } from 'next/cache';
import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { openAction } from '@/app/access/open-page';
import { setCookies } from '@/app/access/set-cookies';
import { signOut } from '@/lib/work/people/sign-out';

/** Ends the session of this browser. */
export async function signOutAction(): Promise<void> {
  const context = await openAction('signOutAction');
  await setCookies(await signOut(context, await headers()));
  revalidatePath('/', 'layout');
  redirect('/sign-in');
}
