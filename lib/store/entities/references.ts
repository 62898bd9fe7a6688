import type { PrismaClient } from '@/generated/sqlite/client';
import type { ReferenceMethod } from '@/lib/contract/clean-references';
import type { CleanFactors } from '@/lib/core/clean/clean-reference';

/** What "clean" means for a unit from an instant on, with the evidence, who accepted it and why. Instants are ms. */
export type StoredReference = {
  number: number;
  /** Null: from the beginning of the record. */
  from: number | null;
  method: ReferenceMethod;
  /** Datasheet version whose clean resistances the factors multiply. */
  unitVersion: number;
  factors: CleanFactors;
  /** Standard uncertainty of the learned factors [-]; null where a factor was not learned. */
  uncertainty: { hot: number | null; cold: number | null };
  evidence: { from: number; to: number; readings: number } | null;
  acceptedBy: string;
  reason: string;
  acceptedAt: number;
};

type Row = Awaited<ReturnType<PrismaClient['cleanReference']['findFirstOrThrow']>>;

function fromRow(row: Row): StoredReference {
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
export async function listReferences(entities: PrismaClient, unitId: number): Promise<StoredReference[]> {
  const rows = await entities.cleanReference.findMany({ where: { unitId }, orderBy: { number: 'asc' } });
  return rows.map(fromRow);
}

/** Adds a reference under its number; false where another with that number was added in the meantime. */
export async function addReference(
  entities: PrismaClient,
  unitId: number,
  reference: StoredReference,
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
