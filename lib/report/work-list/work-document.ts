import type { WorkList } from '@/lib/contract/planned';
import type { PlannedRecord } from '@/lib/report/records';
import { isoInZone } from '@/lib/time/local-day';
import { isOverdue, type WorkRecords } from './work-records';

/** The work list of the contract, times in the zone of each site. */
export function workDocument(records: WorkRecords): WorkList {
  const { fleet, work } = records;
  const zone = fleet.sites[0]?.timeZone ?? 'UTC';
  const plan = fleet.acceptedPlan;
  return {
    asOf: isoInZone(fleet.now, zone),
    plan:
      plan === null
        ? null
        : {
            id: plan.id,
            acceptedAt: isoInZone(plan.acceptedAt, zone),
            acceptedBy: plan.acceptedBy,
            note: plan.note,
          },
    work: work.map((piece) => pieceOf(piece, records)),
  };
}

function pieceOf(piece: PlannedRecord, { fleet, changes }: WorkRecords): WorkList['work'][number] {
  const { id, from, to, changedAt, cleaningId, planId: _plan, unitId: _unit, ...same } = piece;
  const site = fleet.sites.find(({ name }) => name === piece.site)!;
  const iso = (at: number) => isoInZone(at, site.timeZone);
  return {
    id,
    ...same,
    from: iso(from),
    to: iso(to),
    currency: site.currency,
    isOverdue: isOverdue(piece, fleet.now),
    cleaning: cleaningId,
    changedAt: iso(changedAt),
    changes: (changes.get(id) ?? []).map((change) => ({
      kind: change.kind,
      from: iso(change.from),
      to: iso(change.to),
      by: change.by,
      reason: change.reason,
      at: iso(change.at),
    })),
  };
}
