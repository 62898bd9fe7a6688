import type { PrismaClient } from '@/generated/sqlite/client';
import type { DatedPrice, Supply } from '@/lib/contract/fleet-file';
import { dayNumber, isoDay } from '@/lib/time/calendar-day';
import type { Making } from './change';

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

/** A statement and its number: a later one has a higher number. */
export type SupplyStatement = StoredSupply & { id: number };

/** Every row ever stated, the oldest statement first. */
export async function listSupplies(
  entities: Supplies,
  where: Partial<Pick<StoredSupply, 'siteId' | 'supply' | 'fromDay'>> = {},
): Promise<SupplyStatement[]> {
  return (await entities.supplyPrice.findMany({ where, orderBy: { id: 'asc' } })).map(statementOf);
}

/** Every row ever stated for some sites, the oldest statement first. */
export async function suppliesOf(entities: Supplies, siteIds: readonly number[]): Promise<SupplyStatement[]> {
  const where = { siteId: { in: [...siteIds] } };
  return (await entities.supplyPrice.findMany({ where, orderBy: { id: 'asc' } })).map(statementOf);
}

type Row = Awaited<ReturnType<PrismaClient['supplyPrice']['findUniqueOrThrow']>>;

function statementOf({ price, pricePer, carbonKg, carbonPer, ...row }: Row): SupplyStatement {
  return {
    ...row,
    price: price === null || pricePer === null ? null : { amount: price, per: pricePer },
    carbon: carbonKg === null || carbonPer === null ? null : { kg: carbonKg, per: carbonPer },
    createdAt: row.createdAt.getTime(),
  };
}

/** A supply and a day of a site. */
export type SupplyDay = Pick<StoredSupply, 'siteId' | 'supply' | 'fromDay'>;

/** What is stated of a supply and day: neither a price nor a factor withdraws what stood. */
export type SupplyToAdd = SupplyDay & Pick<StoredSupply, 'price' | 'carbon' | 'givenBy' | 'note'>;

/** Adds a statement, recorded with what stood for that day before. */
export async function addSupply(making: Making, siteName: string, row: SupplyToAdd): Promise<void> {
  const { price, carbon, ...rest } = row;
  const before = shown(await lastStated(making.transaction, row));
  await making.transaction.supplyPrice.create({
    data: {
      ...rest,
      price: price?.amount ?? null,
      pricePer: price?.per ?? null,
      carbonKg: carbon?.kg ?? null,
      carbonPer: carbon?.per ?? null,
      createdAt: new Date(making.at),
    },
  });
  const after = shown(row);
  const action = after === null ? 'withdrawn' : before === null ? 'added' : 'changed';
  await making.record({ subject: 'price', name: siteName, action, before, after, note: noteOf(row) });
}

/** A statement as a record shows it; null for none, and for one that withdraws. */
function shown(stated: SupplyToAdd | null) {
  if (stated === null || (stated.price === null && stated.carbon === null)) return null;
  const { supply, fromDay, price, carbon } = stated;
  return { supply, from: isoDay(fromDay), price, carbon };
}

function noteOf({ supply, fromDay, price, carbon, note }: SupplyToAdd): string | null {
  if (price !== null || carbon !== null) return note;
  return [`${supply} from ${isoDay(fromDay)}`, note].filter(Boolean).join(': ');
}

/** The last statement about a supply and day; null where there is none. */
export async function lastStated(
  entities: Supplies,
  { siteId, supply, fromDay }: SupplyDay,
): Promise<SupplyStatement | null> {
  const stated = await listSupplies(entities, { siteId, supply, fromDay });
  return stated.at(-1) ?? null;
}

/**
 * Adds what a fleet file states and what does not stand already; a day that the file leaves out stays as it is.
 *
 * @returns names of the supplies of which anything was added
 */
export async function addStatedSupplies(
  making: Making,
  { id: siteId, name, supplies }: { id: number; name: string; supplies: Supply[] },
): Promise<string[]> {
  const added = new Set<string>();
  for (const { name: supply, dated } of supplies) {
    for (const entry of dated) {
      const row = { ...statedIn(entry), siteId, supply };
      const known = await lastStated(making.transaction, row);
      if (known !== null && isSame(known, row)) continue;
      await addSupply(making, name, row);
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

function isSame(known: StoredSupply, row: SupplyToAdd): boolean {
  return (
    known.price?.amount === row.price?.amount &&
    known.price?.per === row.price?.per &&
    known.carbon?.kg === row.carbon?.kg &&
    known.carbon?.per === row.carbon?.per
  );
}
