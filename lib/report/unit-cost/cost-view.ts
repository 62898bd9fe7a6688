import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { NoCleaningDay } from '@/lib/report/prices/cleaning-day';
import { priceHref } from '@/lib/report/prices/prices-address';
import { reasonWithoutPrice } from '@/lib/report/prices/site-supplies';
import type { UnitRecords } from '@/lib/report/records';
import { unitStaleness } from '@/lib/report/staleness';
import { completeTrend } from '@/lib/report/unit/complete-trend';
import { unitPath } from '@/lib/report/unit/unit-address';
import { type CostAddress, costHref } from './cost-address';
import { type CostChain, costChain } from './cost-chain';
import { type CostCurve, costCurve } from './cost-curve';
import { type CostProjection, costProjection } from './cost-projection';
import { type CostRecords, costRecords } from './cost-records';
import { type CostTable, costTable } from './cost-table';

/** Something that is not known, what to enter so that it is, and where. */
type Missing = { title: string; text: string; action: { label: string; href: string } | null };

/** What one unit's fouling costs, as plain data; `known` is null before there is anything to work it out from. */
export type CostView = {
  tag: string;
  unitHref: string;
  pricesHref: string;
  staleness: string[];
  missing: Missing[];
  known: {
    chain: CostChain | null;
    table: CostTable;
    projection: CostProjection;
    curve: CostCurve | null;
    isTable: boolean;
    toggleHref: string;
    fileName: string;
    /** Kept in the address when another day is asked for. */
    kept: Record<string, string>;
  } | null;
};

export function costView(stored: UnitRecords, address: CostAddress, system: UnitSystem): CostView {
  const records = { ...stored, trend: completeTrend(stored.trend) };
  const { tag } = records.record;
  const cost = costRecords(records);
  return {
    tag,
    unitHref: unitPath(tag),
    pricesHref: '/energy/prices',
    staleness: unitStaleness(records),
    missing: cost === null ? [NOTHING_YET] : missingOf(cost),
    known: cost === null ? null : knownOf(cost, address, system),
  };
}

const NOTHING_YET: Missing = {
  title: 'No reading yet',
  text: 'What fouling costs is worked out from temperatures and flows. Import readings of this unit first.',
  action: { label: 'Import readings', href: '/import' },
};

function knownOf(cost: CostRecords, address: CostAddress, system: UnitSystem): CostView['known'] {
  const { isTable, units } = address;
  return {
    chain: costChain(cost, system),
    table: costTable(cost, system),
    projection: costProjection(cost, address.untilDay, system),
    curve: typeof cost.best === 'string' ? null : costCurve(cost, cost.best),
    isTable,
    toggleHref: costHref(address, { isTable: !isTable }),
    fileName: `${address.tag.replace(/[^\p{L}\p{N}.-]+/gu, '-')}-cost-by-cleaning-day.csv`,
    kept: { ...(isTable ? { table: 'curve' } : {}), ...(units === null ? {} : { units }) },
  };
}

function missingOf(cost: CostRecords): Missing[] {
  const missing: Missing[] = [];
  if (cost.rates.heat.money.length === 0) missing.push(noPrice(cost));
  if (typeof cost.best === 'string' && cost.best !== 'no-price') missing.push(NO_DAY[cost.best](cost));
  return missing;
}

function noPrice({ unit, records }: CostRecords): Missing {
  const { site, tag } = records.record;
  const supply = unit.energy?.supply;
  const action =
    supply === undefined
      ? { label: 'Edit the datasheet', href: `${unitPath(tag)}/setup` }
      : { label: `Add a price of ${supply}`, href: priceHref({ site: site.name, supply }) };
  return {
    title: 'No price of energy',
    text: `Losses are told as energy only: ${reasonWithoutPrice(unit.energy)}. Name a supply of the site under Energy in the datasheet and state its price by date, or state one price in the datasheet itself.`,
    action,
  };
}

const NO_DAY: Record<Exclude<NoCleaningDay, 'no-price'>, (cost: CostRecords) => Missing> = {
  'no-cleaning-cost': ({ records }) => ({
    title: 'No cost of a cleaning',
    text: 'Which day is the cheapest to clean on hangs on what a cleaning costs. State it under Cleaning in the datasheet, or write down what each recorded cleaning did cost: two of them are enough.',
    action: { label: 'Edit the datasheet', href: `${unitPath(records.record.tag)}/setup` },
  }),
  'no-outlook': () => ({
    title: 'Too early to project',
    text: 'Which day is the cheapest to clean on hangs on how the losses grow. That takes recent readings and a growth that can be told from the scatter; it comes by itself as readings arrive.',
    action: null,
  }),
};
