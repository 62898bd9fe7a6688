import type { ImportAddress } from '@/lib/report/import/import-address';
import type { ChangedUnit, ImportRecords } from '@/lib/report/import/import-records';
import { countSetAside, findBatch, listBatches, listSetAside } from '@/lib/store/entities/batches';
import { findResult } from '@/lib/store/entities/results';
import { findUnit, listSites, unitIds } from '@/lib/store/entities/units';
import { allTimeZones } from '@/lib/time/all-time-zones';
import type { Context } from './context';

/** Earlier imports the page lists, and rows kept aside it shows; the rest comes as a file. */
const SHOWN_BATCHES = 20;
const SHOWN_ROWS = 100;

/** Everything the import page shows. */
export async function readImports(context: Context, address: ImportAddress): Promise<ImportRecords> {
  const { entities } = context.store;
  const [sites, ids, batches, batch] = await Promise.all([
    listSites(entities),
    unitIds(entities),
    listBatches(entities, SHOWN_BATCHES),
    address.batch === null ? null : readBatch(context, address.batch, address.changed),
  ]);
  return {
    sites: sites.map(({ name, timeZone }) => ({ name, timeZone })),
    tags: [...ids.keys()].sort((a, b) => a.localeCompare(b, 'en')),
    timeZones: allTimeZones(),
    batches,
    batch,
  };
}

async function readBatch(context: Context, id: number, changed: string[]): Promise<ImportRecords['batch']> {
  const { entities } = context.store;
  const record = await findBatch(entities, id);
  if (record === null) return null;
  const [reasons, rows, units] = await Promise.all([
    countSetAside(entities, id),
    listSetAside(entities, id, SHOWN_ROWS),
    Promise.all(changed.map((tag) => changedUnit(context, tag))),
  ]);
  return { record, reasons, rows, units: units.filter((unit) => unit !== null) };
}

async function changedUnit(context: Context, tag: string): Promise<ChangedUnit | null> {
  const { entities } = context.store;
  const unit = await findUnit(entities, tag);
  if (unit === null) return null;
  const result = await findResult(entities, unit.id);
  const { timeZone } = unit.site;
  const service = unit.unit.service ?? null;
  return { tag, service, timeZone, asOf: result?.asOf ?? null, trend: result?.trend ?? null };
}
