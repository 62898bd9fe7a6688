import type { WorkList } from '@/lib/contract/planned';
import { planZone } from '@/lib/report/plan/accepted-plans';
import { plannedSaves } from '@/lib/report/plan/planned-saves';
import type { PlannedRecord } from '@/lib/report/records';
import { isoInZone } from '@/lib/time/local-day';
import { workAsDone } from './work-done';
import { isOverdue, type WorkRecords } from './work-records';

/** The work list of the contract, times in the zone of each site. */
export function workDocument(records: WorkRecords): WorkList {
  const { fleet, work } = records;
  const zone = fleet.sites[0]?.timeZone ?? 'UTC';
  return {
    asOf: isoInZone(fleet.now, zone),
    plans: fleet.acceptedPlans.map((plan) => ({
      id: plan.id,
      site: plan.request.site ?? null,
      acceptedAt: isoInZone(plan.acceptedAt, planZone(plan, fleet.sites)),
      acceptedBy: plan.acceptedBy,
      note: plan.note,
    })),
    work: work.map((piece) => pieceOf(piece, records)),
  };
}

function pieceOf(piece: PlannedRecord, { fleet, changes }: WorkRecords): WorkList['work'][number] {
  const { id, from, to, changedAt, cleaningId, planId: _plan, unitId, ...same } = piece;
  const site = fleet.sites.find(({ name }) => name === piece.site)!;
  const iso = (at: number) => isoInZone(at, site.timeZone);
  const done = workAsDone(
    piece,
    fleet.units.find(({ record }) => record.id === unitId),
  );
  return {
    id,
    ...same,
    from: iso(from),
    to: iso(to),
    currency: site.currency,
    saves: plannedSaves(piece, fleet),
    isOverdue: isOverdue(piece, fleet.now),
    cleaning: cleaningId,
    done: done && { ...done, from: iso(done.from), to: iso(done.to) },
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
