import type { PrismaClient } from '@/generated/sqlite/client';
import type { DatedPrice, Supply } from '@/lib/contract/fleet-file';
import { dayNumber } from '@/lib/time/calendar-day';

/** What a supply of a site costs and emits from a local day on, as somebody stated it. */
type StoredSupply = {
  siteId: number;
  supply: string;
  fromDay: number;
  price: { amount: number; per: string } | null;
  carbon: { kg: number; per: string } | null;
  givenBy: string | null;
  note: string | null;
  /** [ms] */
  createdAt: number;
};

type Supplies = Pick<PrismaClient, 'supplyPrice'>;

/** Every row ever stated, the oldest statement first. */
export async function listSupplies(
  entities: Supplies,
  where: Partial<Pick<StoredSupply, 'siteId' | 'supply' | 'fromDay'>> = {},
): Promise<StoredSupply[]> {
  const rows = await entities.supplyPrice.findMany({ where, orderBy: { id: 'asc' } });
  return rows.map(({ siteId, supply, fromDay, price, pricePer, carbonKg, carbonPer, ...row }) => ({
    siteId,
    supply,
    fromDay,
    price: price === null || pricePer === null ? null : { amount: price, per: pricePer },
    carbon: carbonKg === null || carbonPer === null ? null : { kg: carbonKg, per: carbonPer },
    givenBy: row.givenBy,
    note: row.note,
    createdAt: row.createdAt.getTime(),
  }));
}

export async function addSupply(entities: Supplies, row: StoredSupply): Promise<void> {
  const { price, carbon, createdAt, ...rest } = row;
  await entities.supplyPrice.create({
    data: {
      ...rest,
      price: price?.amount ?? null,
      pricePer: price?.per ?? null,
      carbonKg: carbon?.kg ?? null,
      carbonPer: carbon?.per ?? null,
      createdAt: new Date(createdAt),
    },
  });
}

/** The last statement about a supply and day; null where there is none. */
async function lastStated(
  entities: Supplies,
  { siteId, supply, fromDay }: Pick<StoredSupply, 'siteId' | 'supply' | 'fromDay'>,
): Promise<StoredSupply | null> {
  const stated = await listSupplies(entities, { siteId, supply, fromDay });
  return stated.at(-1) ?? null;
}

/**
 * Adds what a fleet file states and what does not stand already; a day that the file leaves out stays as it is.
 *
 * @returns names of the supplies of which anything was added
 */
export async function addStatedSupplies(
  entities: Supplies,
  { siteId, supplies, at }: { siteId: number; supplies: Supply[]; at: number },
): Promise<string[]> {
  const added = new Set<string>();
  for (const { name: supply, dated } of supplies) {
    for (const entry of dated) {
      const row = { ...statedIn(entry), siteId, supply, createdAt: at };
      const known = await lastStated(entities, row);
      if (known !== null && isSame(known, row)) continue;
      await addSupply(entities, row);
      added.add(supply);
    }
  }
  return [...added];
}

function statedIn({ from, price, carbon }: DatedPrice) {
  return {
    fromDay: dayNumber(from),
    price: price ?? null,
    carbon: carbon ?? null,
    givenBy: null,
    note: 'stated in a fleet file',
  };
}

function isSame(known: StoredSupply, row: StoredSupply): boolean {
  return (
    known.price?.amount === row.price?.amount &&
    known.price?.per === row.price?.per &&
    known.carbon?.kg === row.carbon?.kg &&
    known.carbon?.per === row.carbon?.per
  );
}
