import type { PrismaClient } from '@/generated/sqlite/client';
import type { UnitResult } from '@/lib/contract/results';
import type { CleanFactors } from '@/lib/core/clean/clean-reference';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';

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

export async function allResults(entities: PrismaClient): Promise<Map<number, StoredResult>> {
  const rows = await entities.unitResult.findMany();
  return new Map(rows.map((row) => [row.unitId, fromRow(row)]));
}

export async function findResult(entities: PrismaClient, unitId: number): Promise<StoredResult | null> {
  const row = await entities.unitResult.findUnique({ where: { unitId } });
  return row === null ? null : fromRow(row);
}

export async function saveResult(entities: PrismaClient, stored: StoredResult): Promise<void> {
  const { unitId, ...rest } = stored;
  const data = {
    ...rest,
    asOf: stored.asOf === null ? null : new Date(stored.asOf),
    computedAt: new Date(stored.computedAt),
    basis: JSON.stringify(stored.basis),
    result: JSON.stringify(stored.result),
    trend: JSON.stringify(stored.trend, plainArrays),
  };
  await entities.unitResult.upsert({ where: { unitId }, create: { unitId, ...data }, update: data });
}

type Row = Awaited<ReturnType<PrismaClient['unitResult']['findUniqueOrThrow']>>;

function fromRow(row: Row): StoredResult {
  return {
    ...row,
    asOf: row.asOf === null ? null : row.asOf.getTime(),
    computedAt: row.computedAt.getTime(),
    basis: JSON.parse(row.basis) as StoredBasis[],
    result: JSON.parse(row.result) as UnitResult,
    trend: JSON.parse(row.trend, bandColumns) as UnitTrend,
  };
}

// JSON has no typed arrays: the band's columns travel as plain ones.
function plainArrays(_key: string, value: unknown): unknown {
  return value instanceof Float64Array ? Array.from(value) : value;
}

function bandColumns(key: string, value: unknown): unknown {
  if (key !== 'band' || value === null || typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value as Record<string, number[]>).map(([name, column]) => [
      name,
      Float64Array.from(column),
    ]),
  );
}
