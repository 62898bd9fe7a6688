import { AppError } from '@/lib/contract/app-error';
import type { FleetRecords } from '@/lib/report/records';

/**
 * The records of one site alone; null: of all.
 *
 * @throws AppError 'not-found' for a site that is not there
 */
export function ofSite(records: FleetRecords, site: string | null): FleetRecords {
  if (site === null) return records;
  const sites = records.sites.filter(({ name }) => name === site);
  if (sites.length === 0) throw new AppError('not-found', `There is no site "${site}"`);
  const isOf = (siteId: number) => sites.some(({ id }) => id === siteId);
  const units = records.units.filter(({ record }) => isOf(record.site.id));
  return {
    ...records,
    sites,
    units,
    outages: records.outages.filter(({ siteId }) => isOf(siteId)),
    supplies: records.supplies.filter(({ siteId }) => isOf(siteId)),
    acceptedPlans: records.acceptedPlans.filter(
      ({ request }) => request.site === undefined || request.site === site,
    ),
    planned: records.planned.filter(({ unitId }) => units.some(({ record }) => record.id === unitId)),
  };
}
