import type { AcceptedPlan } from './planning';

/** The plan in force for a site; one made without a site counts for all. */
export function planOfSite(plans: readonly AcceptedPlan[], site: string): AcceptedPlan | null {
  return plans.find(({ request }) => request.site === undefined || request.site === site) ?? null;
}

/** Whose plan it is, as a sentence goes on after "plan". */
export function planScope({ request }: Pick<AcceptedPlan, 'request'>): string {
  return request.site === undefined ? ' of all sites' : ` of ${request.site}`;
}

/** The zone in which times of a plan are told: that of its site; of the first where it is for all. */
export function planZone(
  { request }: Pick<AcceptedPlan, 'request'>,
  sites: readonly { name: string; timeZone: string }[],
): string {
  return (sites.find(({ name }) => name === request.site) ?? sites[0])?.timeZone ?? 'UTC';
}
