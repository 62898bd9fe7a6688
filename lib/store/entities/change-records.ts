import type { Prisma, PrismaClient } from '@/generated/sqlite/client';
import type { Actor } from '@/lib/contract/actor';
import type { ChangeAction, ChangeSubject, KeptChange } from '@/lib/contract/change-record';

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

/** Which changes somebody asks for; what is left out does not narrow. */
export type ChangeFilter = {
  subjects?: readonly ChangeSubject[];
  /** Part of the name of whoever changed it. */
  who?: string;
  /** The thing exactly as people call it. */
  name?: string;
  action?: ChangeAction;
  /** Number in its document: one cleaning of a unit, one piece of work. */
  number?: number;
  /** From ≤ at < to [ms]. */
  from?: number;
  to?: number;
  /** Only changes written down before this one. */
  beforeId?: number;
};

/** Changes that fit, the newest first. */
export async function listChanges(
  entities: Pick<PrismaClient, 'changeRecord'>,
  filter: ChangeFilter,
  most: number,
): Promise<KeptChange[]> {
  const rows = await entities.changeRecord.findMany({
    where: whereOf(filter),
    orderBy: { id: 'desc' },
    take: most,
  });
  return rows.map(fromRow);
}

/** How many changes fit. */
export async function countChanges(
  entities: Pick<PrismaClient, 'changeRecord'>,
  filter: ChangeFilter,
): Promise<number> {
  return entities.changeRecord.count({ where: whereOf(filter) });
}

/** Everybody who has changed something, by name. */
export async function changersOf(
  entities: Pick<PrismaClient, 'changeRecord'>,
  filter: ChangeFilter,
): Promise<string[]> {
  const rows = await entities.changeRecord.groupBy({ by: ['actorName'], where: whereOf(filter) });
  return rows.map(({ actorName }) => actorName).sort((a, b) => a.localeCompare(b, 'en'));
}

function whereOf(filter: ChangeFilter): Prisma.ChangeRecordWhereInput {
  const { subjects, who, name, action, number, from, to, beforeId } = filter;
  const at = {
    ...(from === undefined ? {} : { gte: new Date(from) }),
    ...(to === undefined ? {} : { lt: new Date(to) }),
  };
  return {
    ...(subjects === undefined ? {} : { subject: { in: [...subjects] } }),
    ...(who === undefined ? {} : { actorName: { contains: who } }),
    ...(name === undefined ? {} : { subjectName: name }),
    ...(action === undefined ? {} : { action }),
    ...(beforeId === undefined ? {} : { id: { lt: beforeId } }),
    ...(number === undefined ? {} : { OR: numbered(number) }),
    ...(from === undefined && to === undefined ? {} : { at }),
  };
}

/** Documents begin with the number of what they are of. */
function numbered(number: number): Prisma.ChangeRecordWhereInput[] {
  const startsWith = `{"number":${number},`;
  return [{ before: { startsWith } }, { after: { startsWith } }];
}

function fromRow(row: Prisma.ChangeRecordModel): KeptChange {
  return {
    id: row.id,
    at: row.at.getTime(),
    actor: { kind: row.actorKind as Actor['kind'], id: row.actorId, name: row.actorName },
    subject: row.subject as ChangeSubject,
    name: row.subjectName,
    action: row.action as ChangeAction,
    before: row.before === null ? null : JSON.parse(row.before),
    after: row.after === null ? null : JSON.parse(row.after),
    note: row.note,
  };
}
