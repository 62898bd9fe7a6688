'use server';

import { revalidatePath } from 'next/cache';
import { headers } from 'next/headers';
import { type FormAnswer, refusal, textOf } from '@/app/access/form-answer';
import { openAction, openPlainAction } from '@/app/access/open-page';
import { numberOf, parse } from '@/app/api/respond';
import { reachedOrigin } from '@/lib/auth/caller';
import { invitationPath } from '@/lib/auth/invitation-secret';
import { AppError } from '@/lib/contract/app-error';
import { accountSchema, personChangeSchema } from '@/lib/contract/people';
import { changePerson } from '@/lib/work/people/change-person';
import { invite, withdrawInvitation } from '@/lib/work/people/invite';

/** Changes somebody's role or access, ends a wait, or signs that one out everywhere. */
export async function changePersonAction(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const fields = Object.fromEntries(
    ['what', 'id', 'revision', 'role'].map((name) => [name, textOf(form, name)]),
  );
  try {
    const context = await openAction('changePersonAction');
    const message = await changePerson(context, parse(fields, personChangeSchema));
    revalidatePath('/people');
    return { kind: 'done', message };
  } catch (error) {
    // Shows how it stands, which somebody else may have changed.
    revalidatePath('/people');
    return refusal(error);
  }
}

export type InviteAnswer =
  | Exclude<FormAnswer, { kind: 'done' }>
  | { kind: 'invited'; email: string; link: string };

/** Invites somebody; the answer holds the only copy of the link. */
export async function inviteAction(_before: InviteAnswer, form: FormData): Promise<InviteAnswer> {
  const fields = Object.fromEntries(['email', 'name', 'role'].map((name) => [name, textOf(form, name)]));
  try {
    const context = await openAction('inviteAction');
    const { invitation, secret } = await invite(context, parse(fields, accountSchema));
    revalidatePath('/people');
    const link = reachedOrigin(await headers()) + invitationPath(secret);
    return { kind: 'invited', email: invitation.email, link };
  } catch (error) {
    return refusal(error, fields);
  }
}

/** Takes an invitation back; one that is no longer open is shown as such by the list itself. */
export async function withdrawInvitationAction(form: FormData): Promise<void> {
  const context = await openPlainAction('withdrawInvitationAction', '/people');
  try {
    await withdrawInvitation(context, numberOf(textOf(form, 'id'), 'invitation'));
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
  }
  revalidatePath('/people');
}
