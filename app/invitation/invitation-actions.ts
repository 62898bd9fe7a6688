'use server';

import { revalidatePath } from 'next/cache';
import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import { z } from 'zod';
import { type FormAnswer, refusal, textOf } from '@/app/access/form-answer';
import { openAction } from '@/app/access/open-page';
import { setCookies } from '@/app/access/set-cookies';
import { parse } from '@/app/api/respond';
import { AppError } from '@/lib/contract/app-error';
import { personNameSchema } from '@/lib/contract/people';
import { acceptInvitation, readInvitation } from '@/lib/work/people/accept-invitation';

export type InvitationAnswer =
  | { kind: 'open'; email: string; name: string; role: string; from: string }
  | { kind: 'gone'; message: string; remedy: string };

/** Whom a link invites, and as what. */
export async function readInvitationAction(secret: string): Promise<InvitationAnswer> {
  try {
    const context = await openAction('readInvitationAction');
    const { email, name, role, invitedBy } = await readInvitation(context, `${secret}`);
    return { kind: 'open', email, name: name ?? '', role, from: invitedBy };
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    return { kind: 'gone', message: error.message, remedy: error.faults[0]?.message ?? '' };
  }
}

const acceptanceSchema = z.object({ name: personNameSchema });

/** Makes the account that a link invites to, and goes to the fleet. */
export async function acceptInvitationAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const fields = { name: textOf(form, 'name') };
  try {
    const context = await openAction('acceptInvitationAction');
    const { name } = parse(fields, acceptanceSchema);
    const acceptance = { name, secret: textOf(form, 'secret'), password: textOf(form, 'password') };
    await setCookies(await acceptInvitation(context, acceptance, await headers()));
  } catch (error) {
    return refusal(error, fields);
  }
  revalidatePath('/', 'layout');
  return redirect('/');
}
