import type { PrismaClient } from '@/generated/sqlite/client';
import type { UnitResult } from '@/lib/contract/results';
import type { CleanFactors } from '@/lib/core/clean/clean-reference';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { trendFromText } from './trend-text';

/** What readings from an instant on were judged by: datasheet version, accepted clean reference, factors used. */
export type StoredBasis = {
  /** [ms]; the first reaches back for ever. */
  from: number;
  unitVersion: number;
  /** Number of the clean reference; null where the datasheet's own way holds. */
  reference: number | null;
  /** How what counts as clean was found, by the reference or else by the datasheet. */
  clean: Exchanger['clean'];
  cleanFactors: CleanFactors;
};

/** What the last analysis said of a unit, and with which method, datasheets and clean references. */
export type StoredResult = {
  unitId: number;
  /** [ms] */
  asOf: number | null;
  computedAt: number;
  methodVersion: number;
  unitVersion: number;
  /** Ascending; empty where it was not kept. */
  basis: StoredBasis[];
  /** Bits of the sensors judged nominal over the record. */
  nominal: number;
  result: UnitResult;
  trend: UnitTrend;
};

export async function allResults(
  entities: PrismaClient,
  unitIds?: readonly number[],
): Promise<Map<number, StoredResult>> {
  const where = unitIds === undefined ? {} : { unitId: { in: [...unitIds] } };
  const rows = await entities.unitResult.findMany({ where });
  return new Map(rows.map((row) => [row.unitId, fromRow(row)]));
}

/** What is told of every unit to other programs, without what is behind it. */
export async function resultDocuments(
  entities: PrismaClient,
): Promise<{ methodVersion: number; result: UnitResult }[]> {
  const rows = await entities.unitResult.findMany({
    select: { methodVersion: true, result: true },
    orderBy: { unitId: 'asc' },
  });
  return rows.map(({ methodVersion, result }) => ({
    methodVersion,
    result: JSON.parse(result) as UnitResult,
  }));
}

export async function findResult(entities: PrismaClient, unitId: number): Promise<StoredResult | null> {
  const row = await entities.unitResult.findUnique({ where: { unitId } });
  return row === null ? null : fromRow(row);
}

type Row = Awaited<ReturnType<PrismaClient['unitResult']['findUniqueOrThrow']>>;

function fromRow(row: Row): StoredResult {
  return {
    ...row,
    asOf: row.asOf === null ? null : row.asOf.getTime(),
    computedAt: row.computedAt.getTime(),
    basis: JSON.parse(row.basis) as StoredBasis[],
    result: JSON.parse(row.result) as UnitResult,
    trend: trendFromText(row.trend),
  };
}
