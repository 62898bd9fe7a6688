import { MISSING } from '@/lib/report/format/figure';
import { formatDay, formatInstant } from '@/lib/report/format/time';
import { unitPath } from '@/lib/report/unit/unit-address';
import { isoDay } from '@/lib/time/calendar-day';
import { ENERGY_UNITS, factorText, priceText } from './price-words';
import { type PricesAddress, priceHref } from './prices-address';
import {
  datasheetPrices,
  type PriceRecords,
  type SiteSupply,
  siteSupplies,
  unpricedUnits,
} from './site-supplies';

type TagLink = { tag: string; href: string };

type DatedRow = {
  key: string;
  from: string;
  price: string;
  carbon: string;
  given: string;
  note: string;
  /** What became of an entry that no longer holds; null for one that does. */
  fate: string | null;
  /** What the form that takes it back sends; null where there is nothing to take back. */
  withdrawal: { site: string; supply: string; from: string; after: number } | null;
};

type SupplyView = { supply: string; usedBy: TagLink[]; pumpedBy: TagLink[]; rows: DatedRow[] };

/** Prices and factors of every site, what units state by themselves, and what is not priced. */
export type PricesView = {
  hasUnits: boolean;
  sites: { name: string; currency: string; timeZone: string; supplies: SupplyView[] }[];
  datasheets: (TagLink & { site: string; price: string; carbon: string; until: string })[];
  unpriced: (TagLink & { site: string; reason: string; remedy: string; remedyHref: string })[];
  form: {
    sites: { name: string; currency: string }[];
    supplies: string[];
    units: typeof ENERGY_UNITS;
    site: string;
    supply: string;
    /** Number of the newest statement that is shown. */
    after: number;
  };
};

export function pricesView(records: PriceRecords, address: PricesAddress): PricesView {
  const supplies = siteSupplies(records);
  const { sites } = records;
  return {
    hasUnits: records.units.length > 0,
    sites: sites.map((site) => ({
      name: site.name,
      currency: site.currency,
      timeZone: site.timeZone,
      supplies: supplies.filter((each) => each.site.id === site.id).map(supplyView),
    })),
    datasheets: datasheetPrices(records).map(({ tag, site, unit }) => ({
      ...linkTo(tag),
      site: site.name,
      price: unit.energy?.price === undefined ? MISSING : priceText(unit.energy.price, site.currency),
      carbon: unit.energy?.carbon === undefined ? MISSING : factorText(unit.energy.carbon),
      until: untilWhen(supplies, site.id, unit.energy?.supply),
    })),
    unpriced: unpricedUnits(records).map(({ unit: { tag, site, unit }, reason }) => ({
      ...linkTo(tag),
      site: site.name,
      reason,
      ...remedyOf(tag, site.name, unit.energy?.supply),
    })),
    form: {
      sites: sites.map(({ name, currency }) => ({ name, currency })),
      supplies: [...new Set(supplies.map(({ supply }) => supply))],
      units: ENERGY_UNITS,
      site: sites.some(({ name }) => name === address.site) ? address.site! : (sites[0]?.name ?? ''),
      supply: address.supply ?? '',
      after: newest(records),
    },
  };
}

function newest({ stated }: PriceRecords): number {
  return Math.max(0, ...stated.map(({ id }) => id));
}

function supplyView({ site, supply, dated, usedBy, pumpedBy }: SiteSupply): SupplyView {
  return {
    supply,
    usedBy: usedBy.map(linkTo),
    pumpedBy: pumpedBy.map(linkTo),
    rows: dated.map(({ id, fromDay, price, carbon, givenBy, note, createdAt, isInForce }, index) => ({
      key: `${fromDay} ${index}`,
      from: formatDay(fromDay),
      price: price === null ? MISSING : priceText(price, site.currency),
      carbon: carbon === null ? MISSING : factorText(carbon),
      given: [formatInstant(createdAt, site.timeZone), givenBy].filter((part) => part !== null).join(', '),
      note: note ?? '',
      fate: isInForce ? null : price === null && carbon === null ? 'withdrawal' : 'no longer holds',
      withdrawal: isInForce ? { site: site.name, supply, from: isoDay(fromDay), after: id } : null,
    })),
  };
}

function untilWhen(supplies: SiteSupply[], siteId: number, name: string | undefined): string {
  const own = supplies.find(({ site, supply }) => site.id === siteId && supply === name);
  const first = own?.dated.findLast(({ isInForce, price }) => isInForce && price !== null);
  if (first === undefined) return 'for every day';
  return `before ${formatDay(first.fromDay)}, then ${name}`;
}

function remedyOf(tag: string, site: string, supply: string | undefined) {
  if (supply === undefined) {
    return {
      remedy: 'name a supply, or state a price, under Energy in its datasheet',
      remedyHref: `${unitPath(tag)}/setup`,
    };
  }
  return { remedy: `add a price of ${supply}`, remedyHref: priceHref({ site, supply }) };
}

function linkTo(tag: string): TagLink {
  return { tag, href: unitPath(tag) };
}
