import type { PrismaClient } from '@/generated/sqlite/client';
import type { StatementRecord, UnitStatement } from '@/lib/contract/review';

/** What was said of every unit on a local day, by unit. */
export async function statementsOn(
  entities: PrismaClient,
  day: number,
): Promise<Map<number, StatementRecord>> {
  const rows = await entities.unitStatement.findMany({ where: { day } });
  return new Map(rows.map((row) => [row.unitId, fromRow(row)]));
}

/** What was said of a unit on a local day; null where nothing was kept. */
export async function findStatement(
  entities: PrismaClient,
  { unitId, day }: { unitId: number; day: number },
): Promise<StatementRecord | null> {
  const row = await entities.unitStatement.findUnique({ where: { unitId_day: { unitId, day } } });
  return row === null ? null : fromRow(row);
}

/** Keeps what is said of a unit on a day, in place of what was kept of that day before. */
export async function saveStatement(entities: PrismaClient, record: StatementRecord): Promise<void> {
  const { unitId, day, computedAt, methodVersion, isAfterwards, statement } = record;
  const data = {
    computedAt: new Date(computedAt),
    methodVersion,
    statement: JSON.stringify({ ...statement, isAfterwards }),
  };
  await entities.unitStatement.upsert({
    where: { unitId_day: { unitId, day } },
    create: { unitId, day, ...data },
    update: data,
  });
}

type Row = Awaited<ReturnType<PrismaClient['unitStatement']['findUniqueOrThrow']>>;

function fromRow({ computedAt, statement: kept, ...row }: Row): StatementRecord {
  const { isAfterwards, ...statement } = JSON.parse(kept) as UnitStatement & { isAfterwards: boolean };
  return { ...row, computedAt: computedAt.getTime(), isAfterwards, statement };
}
