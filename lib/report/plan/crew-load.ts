import { formatNumber } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import { type DaySpan, shareOf } from '@/lib/report/time-axis';
import type { PlanDraft } from './draft-plan';
import type { PlanDesk } from './plan-desk';

/** Hours of work in an outage or a week, used of there: where on the axis, and in words. */
export type CrewLoad = {
  kind: 'outage' | 'week';
  name: string;
  /** Shares of the axis. */
  from: number;
  to: number;
  used: number;
  /** null: as many as needed. */
  hours: number | null;
  /** Used of there, at most 1; 0 without use [-]. */
  share: number;
  isOver: boolean;
  /** "24 of 96 h". */
  words: string;
};

/** An hour of work more than there is may be the rounding of a sum [h]. */
const LEAST_OVER = 1e-6;

export function crewLoad({ problem, input }: PlanDesk, { schedule }: PlanDraft, span: DaySpan): CrewLoad[] {
  const used = problem.pools.map(() => 0);
  for (const [unit, options] of schedule.entries())
    for (const option of options)
      for (const { pool, hours } of problem.units[unit]!.options[option]!.crew)
        used[pool] = used[pool]! + hours;
  return problem.pools.flatMap((pool, at): CrewLoad[] => {
    // The calendar may reach beyond the plan.
    if (pool.to <= span.from || pool.from >= span.to) return [];
    const hours = Number.isFinite(pool.hours) ? pool.hours : null;
    const isOver = hours !== null && used[at]! > hours + LEAST_OVER;
    return [
      {
        kind: pool.kind,
        name:
          pool.kind === 'outage'
            ? input.outages[pool.index]!.name
            : `week of ${formatDay(Math.floor(pool.from))}`,
        from: Math.max(0, shareOf(span, pool.from)),
        to: Math.min(1, shareOf(span, pool.to)),
        used: used[at]!,
        hours,
        share: hours === null ? 0 : hours === 0 ? Number(isOver) : Math.min(1, used[at]! / hours),
        isOver,
        words: loadInWords(used[at]!, hours),
      },
    ];
  });
}

function loadInWords(used: number, hours: number | null): string {
  return hours === null
    ? `${formatNumber(used, 0)} h used, as many as needed`
    : `${formatNumber(used, 0)} of ${formatNumber(hours, 0)} h`;
}
