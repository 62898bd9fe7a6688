import type { Prisma, PrismaClient } from '@/generated/sqlite/client';
import type { Mapping } from '@/lib/contract/mapping';

export type StoredMapping = {
  name: string;
  mapping: Mapping;
  revision: number;
  /** [ms] */
  changedAt: number;
  changedBy: string;
};

type Entities = PrismaClient | Prisma.TransactionClient;
type Row = Awaited<ReturnType<PrismaClient['savedMapping']['findUniqueOrThrow']>>;

function fromRow({ name, document, revision, changedAt, changedBy }: Row): StoredMapping {
  return {
    name,
    mapping: JSON.parse(document) as Mapping,
    revision,
    changedAt: changedAt.getTime(),
    changedBy,
  };
}

export async function listMappings(entities: Entities): Promise<StoredMapping[]> {
  return (await entities.savedMapping.findMany({ orderBy: { name: 'asc' } })).map(fromRow);
}

export async function findMapping(entities: Entities, name: string): Promise<StoredMapping | null> {
  const row = await entities.savedMapping.findUnique({ where: { name } });
  return row === null ? null : fromRow(row);
}

/** Adds a mapping under a name that is free. */
export async function addMapping(
  entities: Entities,
  mapping: Omit<StoredMapping, 'revision'>,
): Promise<void> {
  await entities.savedMapping.create({ data: rowOf(mapping) });
}

/** Writes over the revision that was edited; false where it is no longer that one. */
export async function replaceMapping(entities: Entities, mapping: StoredMapping): Promise<boolean> {
  const { name, revision } = mapping;
  const { count } = await entities.savedMapping.updateMany({
    where: { name, revision },
    data: { ...rowOf(mapping), revision: { increment: 1 } },
  });
  return count === 1;
}

/** Removes the revision that was looked at; false where it is no longer that one. */
export async function removeMapping(entities: Entities, name: string, revision: number): Promise<boolean> {
  const { count } = await entities.savedMapping.deleteMany({ where: { name, revision } });
  return count === 1;
}

function rowOf({ name, mapping, changedAt, changedBy }: Omit<StoredMapping, 'revision'>) {
  return { name, document: JSON.stringify(mapping), changedAt: new Date(changedAt), changedBy };
}
