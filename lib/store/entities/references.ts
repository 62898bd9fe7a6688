import type { PrismaClient } from '@/generated/sqlite/client';
import type { CleanReferenceRecord, ReferenceMethod } from '@/lib/contract/clean-references';

type Row = Awaited<ReturnType<PrismaClient['cleanReference']['findFirstOrThrow']>>;

export function referenceOf(row: Row): CleanReferenceRecord {
  const { evidenceFrom, evidenceTo, readings } = row;
  return {
    number: row.number,
    from: row.from?.getTime() ?? null,
    method: row.method as ReferenceMethod,
    unitVersion: row.unitVersion,
    factors: { hot: row.hotFactor, wall: row.wallFactor, cold: row.coldFactor },
    uncertainty: { hot: row.hotUncertainty, cold: row.coldUncertainty },
    evidence:
      evidenceFrom === null || evidenceTo === null || readings === null
        ? null
        : { from: evidenceFrom.getTime(), to: evidenceTo.getTime(), readings },
    acceptedBy: row.acceptedBy,
    reason: row.reason,
    acceptedAt: row.createdAt.getTime(),
  };
}

/** Every clean reference a unit ever had, in the order they were accepted. */
export async function listReferences(
  entities: Pick<PrismaClient, 'cleanReference'>,
  unitId: number,
): Promise<CleanReferenceRecord[]> {
  const rows = await entities.cleanReference.findMany({ where: { unitId }, orderBy: { number: 'asc' } });
  return rows.map(referenceOf);
}

/** Adds a reference under its number; false where another with that number was added in the meantime. */
export async function addReference(
  entities: Pick<PrismaClient, 'cleanReference'>,
  unitId: number,
  reference: CleanReferenceRecord,
): Promise<boolean> {
  const { number, from, method, unitVersion, factors, uncertainty, evidence } = reference;
  const instant = (at: number | undefined) => (at === undefined ? null : new Date(at));
  try {
    await entities.cleanReference.create({
      data: {
        unitId,
        number,
        from: instant(from ?? undefined),
        method,
        unitVersion,
        hotFactor: factors.hot,
        wallFactor: factors.wall,
        coldFactor: factors.cold,
        hotUncertainty: uncertainty.hot,
        coldUncertainty: uncertainty.cold,
        evidenceFrom: instant(evidence?.from),
        evidenceTo: instant(evidence?.to),
        readings: evidence?.readings ?? null,
        acceptedBy: reference.acceptedBy,
        reason: reference.reason,
        createdAt: new Date(reference.acceptedAt),
      },
    });
    return true;
  } catch (error) {
    if (isTaken(error)) return false;
    throw error;
  }
}

/** Prisma's code for a row that a unique index refuses. */
function isTaken(error: unknown): boolean {
  return typeof error === 'object' && error !== null && 'code' in error && error.code === 'P2002';
}
