import type { Prisma } from '@/generated/sqlite/client';
import type { Actor } from '@/lib/contract/actor';
import type { ChangeAction, ChangeSubject } from '@/lib/contract/change-record';

export type Change = {
  actor: Actor;
  /** [ms] */
  at: number;
  subject: ChangeSubject;
  /** What people call it: a tag, a site, an address. */
  name: string;
  action: ChangeAction;
  /** Documents as they stood before and after; null where there was nothing. */
  before?: unknown;
  after?: unknown;
  note?: string | null;
};

/** Writes a change down; call it within the transaction that makes the change, so that neither stands without the other. */
export async function recordChange(transaction: Prisma.TransactionClient, change: Change): Promise<void> {
  const { actor, at, subject, name, action, before, after, note } = change;
  await transaction.changeRecord.create({
    data: {
      at: new Date(at),
      actorKind: actor.kind,
      actorId: actor.id,
      actorName: actor.name,
      subject,
      subjectName: name,
      action,
      before: documentOf(before),
      after: documentOf(after),
      note: note ?? null,
    },
  });
}

function documentOf(value: unknown): string | null {
  return value === null || value === undefined ? null : JSON.stringify(value);
}
