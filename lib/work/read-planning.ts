import { type PlanRequest, planRequestSchema } from '@/lib/contract/plan';
import { planOfSite } from '@/lib/report/plan/accepted-plans';
import { planInput } from '@/lib/report/plan/plan-input';
import type { Planning } from '@/lib/report/plan/planning';
import type { FleetRecords, SiteRecord } from '@/lib/report/records';
import { calendarRevisions, crewHours, listPairs } from '@/lib/store/entities/calendar';
import { listSites } from '@/lib/store/entities/units';
import { isoInZone } from '@/lib/time/local-day';
import type { Context } from './context';
import { readFleet } from './read-fleet';

/** Everything the planner's page of a site starts from: its calendar as a request, and what a plan would be made from. */
export async function readPlanning(context: Context, siteName: string | null): Promise<Planning> {
  const sites = await listSites(context.store.entities);
  const site = sites.find(({ name }) => name === siteName) ?? sites[0] ?? null;
  const whole = await readFleet(context, { lastDays: null, ...(site === null ? {} : { siteId: site.id }) });
  const fleet = ofSite(whole, site);
  // The revision first: a calendar saved in between is newer than it says, and an edit of it is refused rather than lost.
  const revisions = await calendarRevisions(context.store.entities);
  const request = await storedRequest(context, fleet, site);
  return {
    sites,
    site,
    fleet,
    request,
    calendarRevision: (site === null ? null : revisions.get(site.id)) ?? 0,
    ...planInput(fleet, request),
    accepted: site === null ? null : planOfSite(fleet.acceptedPlans, site.name),
    planned: fleet.planned,
  };
}

function ofSite(fleet: FleetRecords, site: SiteRecord | null): FleetRecords {
  const units = fleet.units.filter(({ record }) => record.site.id === site?.id);
  const tags = new Set(units.map(({ record }) => record.tag));
  return {
    ...fleet,
    units,
    sites: site === null ? [] : [site],
    outages: fleet.outages.filter(({ siteId }) => siteId === site?.id),
    planned: fleet.planned.filter(({ tag }) => tags.has(tag)),
  };
}

/** The site's stored calendar as a plan request: outages that have not ended, its crew, its pairs. */
async function storedRequest(
  context: Context,
  fleet: FleetRecords,
  site: SiteRecord | null,
): Promise<PlanRequest> {
  if (site === null) return planRequestSchema.parse({});
  const { entities } = context.store;
  const [crews, pairs] = await Promise.all([crewHours(entities), listPairs(entities)]);
  const tags = new Set(fleet.units.map(({ record }) => record.tag));
  const crew = crews.get(site.id) ?? null;
  return planRequestSchema.parse({
    site: site.name,
    outages: fleet.outages
      .filter(({ to }) => to > fleet.now)
      .map(({ name, from, to, crewHours: hours }) => ({
        name,
        from: isoInZone(from, site.timeZone),
        to: isoInZone(to, site.timeZone),
        ...(hours === null ? {} : { crewHours: hours }),
      })),
    ...(crew === null ? {} : { online: { crewHoursPerWeek: crew } }),
    notTogether: pairs.filter((pair) => pair.every((tag) => tags.has(tag))),
  });
}
