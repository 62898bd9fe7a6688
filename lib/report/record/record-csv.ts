import type { PastRecord } from '@/lib/contract/past-record';
import { csvText } from '@/lib/report/format/csv';

/** Every past projection as a row, in the order of the units. */
export function recordCsv({ projections }: PastRecord): string {
  return csvText([
    [
      'tag',
      'service',
      'site',
      'cycle_start',
      'made_on',
      'share_of_life',
      'level[m2.K/W]',
      'level_is_limit',
      'p10',
      'p50',
      'p90',
      'reached_on',
      'reached_uncertainty[d]',
      'held',
      'error[d]',
      'error_share_of_time_left',
    ],
    ...projections.map((projection) => [
      projection.tag,
      projection.service,
      projection.site,
      projection.cycleStart,
      projection.madeOn,
      projection.shareOfLife,
      Number(projection.level.toPrecision(6)),
      projection.isLimit ? 'yes' : 'no',
      projection.p10,
      projection.p50,
      projection.p90,
      projection.reachedOn,
      Number(projection.reachedUncertaintyDays.toFixed(2)),
      projection.held ? 'yes' : 'no',
      projection.errorDays,
      projection.errorShare === null ? null : Number(projection.errorShare.toFixed(4)),
    ]),
  ]);
}
