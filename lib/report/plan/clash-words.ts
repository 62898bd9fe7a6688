import type { PlanInput } from '@/lib/core/plan/plan-input';
import type { Clash, PlanProblem } from '@/lib/core/plan/plan-problem';
import { formatNumber } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import { countOf } from '@/lib/report/format/words';

type Given = { input: Pick<PlanInput, 'outages' | 'confidence'>; problem: PlanProblem };

/** The clashes worth telling: of a unit that has no place it goes without saying that it is late. */
export function toldClashes(clashes: readonly Clash[]): Clash[] {
  const nowhere = new Set(clashes.flatMap(({ kind, units }) => (kind === 'no-place' ? units : [])));
  return clashes.filter(({ kind, units }) => kind !== 'limit' || !nowhere.has(units[0]!));
}

/** A constraint that cannot be kept, and who breaks it: "crew hours of Half-year stop: 96 h needed, 80 h there (E-101, E-102)". */
export function clashInWords(clash: Clash, given: Given): string {
  const { input, problem } = given;
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
      return `${tags} ${lateInWords(clash, given)}`;
    case 'no-place':
      return noPlaceInWords(problem, clash.units[0]!);
  }
}

function lateInWords(
  { units, daysLate }: Extract<Clash, { kind: 'limit' }>,
  { input, problem }: Given,
): string {
  // Over its limit from the first day to the last: it is never cleaned. After a first cleaning it could not be as late.
  const isNeverCleaned = problem.units[units[0]!]!.isOverdue && daysLate >= problem.to - problem.from;
  if (isNeverCleaned) return 'is over its limit and is not cleaned';
  const days = countOf(Math.ceil(daysLate), 'day');
  const confidence = `${formatNumber(input.confidence * 100, 0)} %`;
  return `goes ${days} beyond the day before which it must be cleaned, at ${confidence}`;
}

function noPlaceInWords({ units, unplaced }: PlanProblem, index: number): string {
  const { tag, options } = units[index]!;
  if (options.length > 0 || unplaced.includes(index))
    return `${tag} has a locked cleaning for which there is no place where it is locked`;
  return `${tag} must be cleaned and there is no outage it fits into and no crew outside outages`;
}

function hours(value: number): string {
  return `${formatNumber(value, 0)} h`;
}
