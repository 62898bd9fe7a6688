import type { PrismaClient } from '@/generated/sqlite/client';
import type { VerdictRecord } from '@/lib/contract/verdicts';
import type { JudgedPeriod } from '@/lib/core/checks/judged-period';
import type { Making } from './change';
import type { OfUnit } from './cleanings';
import { withdrawnColumns, withdrawnOf } from './withdrawn';

/** Every verdict a unit ever had, oldest first, those withdrawn among them. */
export async function listVerdicts(entities: PrismaClient, unitId: number): Promise<VerdictRecord[]> {
  const rows = await entities.periodVerdict.findMany({ where: { unitId }, orderBy: { id: 'asc' } });
  return rows.map(verdictOf);
}

type Row = Awaited<ReturnType<PrismaClient['periodVerdict']['findUniqueOrThrow']>>;

export function verdictOf(row: Row): VerdictRecord {
  return {
    id: row.id,
    from: row.from.getTime(),
    to: row.to.getTime(),
    verdict: row.verdict as VerdictRecord['verdict'],
    note: row.note,
    by: row.givenBy,
    givenAt: row.createdAt.getTime(),
    withdrawn: withdrawnOf(row),
  };
}

/** Those that hold, as the evaluation takes them. */
export function standing(verdicts: readonly VerdictRecord[]): JudgedPeriod[] {
  return verdicts
    .filter(({ withdrawn }) => withdrawn === null)
    .map(({ from, to, verdict }) => ({ from, to, verdict }));
}

/** Writes a verdict down and gives its number. */
export async function addVerdict(
  making: Making,
  { unitId, tag }: OfUnit,
  verdict: Pick<VerdictRecord, 'from' | 'to' | 'verdict' | 'note'>,
): Promise<number> {
  const { from, to, note } = verdict;
  const { id } = await making.transaction.periodVerdict.create({
    data: {
      unitId,
      from: new Date(from),
      to: new Date(to),
      verdict: verdict.verdict,
      note,
      givenBy: making.by,
      createdAt: new Date(making.at),
    },
  });
  await making.record({ subject: 'override', name: tag, action: 'added', after: shown(id, verdict), note });
  await making.markDue(unitId, from);
  return id;
}

/** Withdraws a unit's verdict; false where it has none of that number that still holds. */
export async function withdrawVerdict(
  making: Making,
  { unitId, tag, id }: OfUnit & { id: number },
  note: string,
): Promise<boolean> {
  const { count } = await making.transaction.periodVerdict.updateMany({
    where: { id, unitId, withdrawnAt: null },
    data: withdrawnColumns(making, note),
  });
  if (count === 0) return false;
  const { from, to, verdict } = await making.transaction.periodVerdict.findUniqueOrThrow({ where: { id } });
  const before = shown(id, { from: from.getTime(), to: to.getTime(), verdict });
  await making.record({ subject: 'override', name: tag, action: 'withdrawn', before, note });
  await making.markDue(unitId, from.getTime());
  return true;
}

function shown(number: number, { from, to, verdict }: { from: number; to: number; verdict: string }) {
  return { number, from: new Date(from).toISOString(), to: new Date(to).toISOString(), verdict };
}
