import type { PlanInput } from '@/lib/core/plan/plan-input';
import type { Clash, PlanProblem } from '@/lib/core/plan/plan-problem';
import { formatNumber } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import { countOf } from '@/lib/report/format/words';

/** A constraint that cannot be kept, and who breaks it: "crew hours of Half-year stop: 96 h needed, 80 h there (E-101, E-102)". */
export function clashInWords(
  clash: Clash,
  { input, problem }: { input: Pick<PlanInput, 'outages' | 'confidence'>; problem: PlanProblem },
): string {
  const tags = clash.units.map((unit) => problem.units[unit]!.tag).join(', ');
  switch (clash.kind) {
    case 'crew': {
      const pool = problem.pools[clash.pool]!;
      const where =
        pool.kind === 'outage'
          ? input.outages[pool.index]!.name
          : `the week of ${formatDay(Math.floor(pool.from))}`;
      return `crew hours of ${where}: ${hours(clash.needed)} needed, ${hours(clash.available)} there (${tags})`;
    }
    case 'together':
      return `${tags} must not be out together, and are on ${formatDay(Math.floor(clash.from))}`;
    case 'limit':
      return `${tags} is cleaned ${countOf(Math.ceil(clash.daysLate), 'day')} after it must be, at ${Math.round(input.confidence * 100)} %`;
    case 'no-place':
      return `${tags} must be cleaned and there is no outage it fits into and no crew outside outages`;
  }
}

function hours(value: number): string {
  return `${formatNumber(value, 0)} h`;
}
