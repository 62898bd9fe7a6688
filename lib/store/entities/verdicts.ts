import type { PrismaClient } from '@/generated/sqlite/client';
import type { VerdictRecord } from '@/lib/contract/verdicts';
import type { Withdrawal } from '@/lib/contract/withdrawal';
import type { JudgedPeriod } from '@/lib/core/checks/judged-period';
import { withdrawnColumns, withdrawnOf } from './withdrawn';

/** Every verdict a unit ever had, oldest first, those withdrawn among them. */
export async function listVerdicts(entities: PrismaClient, unitId: number): Promise<VerdictRecord[]> {
  const rows = await entities.periodVerdict.findMany({ where: { unitId }, orderBy: { id: 'asc' } });
  return rows.map((row) => ({
    id: row.id,
    from: row.from.getTime(),
    to: row.to.getTime(),
    verdict: row.verdict as VerdictRecord['verdict'],
    note: row.note,
    by: row.givenBy,
    givenAt: row.createdAt.getTime(),
    withdrawn: withdrawnOf(row),
  }));
}

/** Those that hold, as the evaluation takes them. */
export function standing(verdicts: readonly VerdictRecord[]): JudgedPeriod[] {
  return verdicts
    .filter(({ withdrawn }) => withdrawn === null)
    .map(({ from, to, verdict }) => ({ from, to, verdict }));
}

/** Writes a verdict down and gives its number. */
export async function addVerdict(
  entities: PrismaClient,
  unitId: number,
  { from, to, verdict, note, by, givenAt }: Omit<VerdictRecord, 'id' | 'withdrawn'>,
): Promise<number> {
  const { id } = await entities.periodVerdict.create({
    data: {
      unitId,
      from: new Date(from),
      to: new Date(to),
      verdict,
      note,
      givenBy: by,
      createdAt: new Date(givenAt),
    },
  });
  return id;
}

/** Withdraws a unit's verdict and gives its beginning [ms]; null where it has none of that number that still holds. */
export async function withdrawVerdict(
  entities: PrismaClient,
  { unitId, id }: { unitId: number; id: number },
  { at, ...withdrawal }: Withdrawal & { at: number },
): Promise<number | null> {
  const { count } = await entities.periodVerdict.updateMany({
    where: { id, unitId, withdrawnAt: null },
    data: withdrawnColumns(withdrawal, at),
  });
  if (count === 0) return null;
  return (await entities.periodVerdict.findUniqueOrThrow({ where: { id } })).from.getTime();
}
