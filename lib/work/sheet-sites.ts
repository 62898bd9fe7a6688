import { faultsOf } from '@/lib/contract/faults';
import { type Site, type Supply, siteSchema, supplySchema } from '@/lib/contract/fleet-file';
import { SITE_COLUMNS } from '@/lib/contract/fleet-sheet/other-columns';
import type { Json, JsonObject } from '@/lib/contract/fleet-sheet/paths';
import { rowFault } from '@/lib/ingest/fleet-sheet/read-table';
import type { SheetFault, SheetRow, SheetRows } from '@/lib/ingest/fleet-sheet/sheet-rows';

/** A site as the workbook and the database know it together. */
export type SheetSite = { site: Site; outcome: 'added' | 'updated' | 'unchanged' };

export type SheetSites = {
  all: Map<string, SheetSite>;
  /** The site that is meant where a row names none; null where there are several. */
  only: string | null;
};

/** The sites that rows may name: those of the sheet "Site", and those that are known. */
export function sheetSites(tables: SheetRows[], known: Site[], faults: SheetFault[]): SheetSites {
  const all = new Map<string, SheetSite>(
    known.map(({ name, timeZone, currency }) => [
      name,
      { site: { name, timeZone, currency }, outcome: 'unchanged' as const },
    ]),
  );
  const stated = new Set<string>();
  for (const row of tables.flatMap(({ table, rows }) => (table === 'sites' ? rows : []))) {
    const site = siteOf(row, all, faults);
    if (site === null) continue;
    if (stated.has(site.name))
      faults.push(rowFault(row, 'name', `${site.name} stands twice; keep one of the rows`));
    stated.add(site.name);
    const before = all.get(site.name)?.site;
    const isSame = before?.timeZone === site.timeZone && before.currency === site.currency;
    all.set(site.name, { site, outcome: before === undefined ? 'added' : isSame ? 'unchanged' : 'updated' });
  }
  const names = stated.size > 0 ? [...stated] : [...all.keys()];
  return { all, only: names.length === 1 ? names[0]! : null };
}

/** The site of a row; what its sheet has no column for is kept of a known site. */
function siteOf(row: SheetRow, known: SheetSites['all'], faults: SheetFault[]): Site | null {
  const name = row.values.get('name');
  const document: JsonObject = { ...known.get(String(name))?.site };
  for (const { path } of SITE_COLUMNS) {
    if (!row.columns.has(path)) continue;
    const value = row.values.get(path);
    if (value === undefined) delete document[path];
    else document[path] = value;
  }
  const parsed = siteSchema.safeParse(document);
  if (parsed.success) return parsed.data;
  for (const { field, message } of faultsOf(parsed.error)) {
    if (!row.unread.has(field)) faults.push(rowFault(row, field, message));
  }
  return null;
}

/** What is known of a supply and day: the last statement, and when it was made. */
export type KnownPrice = {
  site: string;
  supply: string;
  from: string;
  price: Json;
  carbon: Json;
  statedAt: string;
};

/** Prices that the workbook states and nobody has stated yet, by site. */
export function sheetSupplies(
  tables: SheetRows[],
  { sites, known }: { sites: SheetSites; known: KnownPrice[] },
  faults: SheetFault[],
): Map<string, Supply[]> {
  const bySite = new Map<string, Supply[]>();
  const seen = new Set<string>();
  for (const row of tables.flatMap(({ table, rows }) => (table === 'supplies' ? rows : []))) {
    const site = row.values.get('site') ?? sites.only;
    if (typeof site !== 'string' || !sites.all.has(site)) {
      faults.push(rowFault(row, 'site', noSite(site, sites)));
      continue;
    }
    const supply = supplyOf(row, faults);
    if (supply === null) continue;
    const dated = supply.dated[0]!;
    const key = JSON.stringify([site, supply.name, dated.from]);
    if (seen.has(key))
      faults.push(rowFault(row, null, 'this supply and day stand twice; keep one of the rows'));
    seen.add(key);
    const before = known.find((k) => JSON.stringify([k.site, k.supply, k.from]) === key);
    if (before !== undefined && isSamePrice(before, dated)) continue;
    const stated = row.values.get('stated');
    if (stated !== undefined && before !== undefined && stated !== before.statedAt) {
      const message = `somebody has stated another price for that day since, at ${before.statedAt}; download the fleet anew, and make your change there`;
      faults.push(rowFault(row, 'stated', message));
      continue;
    }
    bySite.set(site, [...(bySite.get(site) ?? []), supply]);
  }
  return bySite;
}

/** Why a row has no site. */
export function noSite(site: Json | undefined | null, { all }: SheetSites): string {
  const names = [...all.keys()].map((name) => `"${name}"`).join(', ');
  if (site == null)
    return names === ''
      ? 'is missing: state the site on the sheet "Site"'
      : `is missing: say which site, ${names}`;
  return `"${site}" is not known; write it on the sheet "Site" with its time zone and currency${names === '' ? '' : `, or use one of ${names}`}`;
}

function isSamePrice(known: KnownPrice, { price, carbon }: Supply['dated'][number]): boolean {
  const plain = (value: unknown) => JSON.stringify(Object.entries(value ?? {}).sort());
  return plain(known.price) === plain(price) && plain(known.carbon) === plain(carbon);
}

const DATED = 'supplies[].dated[].';

function supplyOf(row: SheetRow, faults: SheetFault[]): Supply | null {
  if (row.unread.size > 0) return null;
  const dated: JsonObject = {};
  for (const key of ['from', 'price', 'carbon']) {
    const value = row.values.get(`${DATED}${key}`);
    if (value !== undefined) dated[key] = value;
  }
  const parsed = supplySchema.safeParse({ name: row.values.get('supplies[].name'), dated: [dated] });
  if (parsed.success) return parsed.data;
  for (const { field, message } of faultsOf(parsed.error)) {
    const key = /^dated\[0\]\.(\w+)/.exec(field)?.[1];
    faults.push(rowFault(row, key === undefined ? 'supplies[].name' : `${DATED}${key}`, message));
  }
  return null;
}
