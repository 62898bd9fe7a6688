import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { formatFigureText, formatNumber } from '@/lib/report/format/figure';
import { formatDay, formatInstant } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { ProposedReference } from '@/lib/report/records';
import { governingLimit } from '@/lib/report/unit/fouling-chart';
import { factorsInWords, METHOD_WORDS } from './factor-words';
import { doubtsInWords, flowsInWords, indexInWords, refusalInWords } from './learning-words';

/** A clean reference worked out but not accepted: what it is, what speaks for it, what it would change. */
export type ProposalView = {
  method: string;
  /** Null where the method gives none. */
  factors: string | null;
  holds: string;
  learnedFrom: string | null;
  /** Why it cannot be accepted, and what would help; empty where it can. */
  refusal: string[];
  /** How the two ways to learn compare on the same readings; empty where nothing was learned. */
  comparison: { way: string; factors: string; scatter: string }[];
  /** The identifiability test in words; null where nothing was learned. */
  verdict: string | null;
  effect: { label: string; before: string; after: string }[];
};

type How = { timeZone: string; system: UnitSystem };

export function proposalView(proposed: ProposedReference, { timeZone, system }: How): ProposalView {
  const { method, from, period, learned, effect, unitVersion } = proposed;
  const { factors, uncertainty, evidence, refusal } = learned;
  const instant = (at: number) => formatInstant(at, timeZone);
  const since = from === null ? 'from the beginning of the record' : `from ${instant(from)}`;
  return {
    method: METHOD_WORDS[method],
    factors: factors === null ? null : factorsInWords(factors, uncertainty),
    holds: `${since}, on datasheet version ${unitVersion}`,
    learnedFrom:
      period === null
        ? null
        : `${evidence?.readings ?? 'too few'} accepted readings, ${instant(period.from)} to ${instant(period.to)}`,
    refusal:
      refusal === null
        ? []
        : [
            refusalInWords(refusal),
            ...(refusal.kind === 'films-not-told-apart' ? doubtsInWords(learned, system) : []),
          ],
    comparison: comparisonOf(proposed),
    verdict: verdictOf(proposed, system),
    effect: effect === null ? [] : effectRows(effect, { timeZone, system }),
  };
}

const percent = (share: number) => `${formatNumber(share * 100, 2)} %`;

function comparisonOf({ learned }: ProposedReference): ProposalView['comparison'] {
  const { scale, films } = learned;
  if (scale === null || films === null) return [];
  const one = { hot: scale.scale, wall: scale.scale, cold: scale.scale };
  return [
    {
      way: METHOD_WORDS.scale,
      factors: factorsInWords(one, { hot: scale.uncertainty, cold: scale.uncertainty }),
      scatter: percent(films.scatterOfOneScale),
    },
    {
      way: METHOD_WORDS['two-films'],
      factors: factorsInWords(films.factors, films.uncertainty),
      scatter: percent(films.scatter),
    },
  ];
}

function verdictOf({ learned, method }: ProposedReference, system: UnitSystem): string | null {
  const { films } = learned;
  if (films === null || learned.scale === null) return null;
  const test = `condition index ${indexInWords(films.condition)}, gain in Akaike’s criterion ${formatNumber(films.gain, 1)}; ${flowsInWords(films, system)}`;
  if (films.doubts.length === 0) return `The two films can be told apart: ${test}.`;
  return method === 'two-films'
    ? null
    : `The two films cannot be told apart here; one factor is the honest choice (${test}).`;
}

function effectRows(
  { before, after }: NonNullable<ProposedReference['effect']>,
  { system }: How,
): ProposalView['effect'] {
  const row = (label: string, of: (trend: UnitTrend) => string) => ({
    label,
    before: of(before),
    after: of(after),
  });
  return [
    row('Fouling resistance today', ({ foulingResistance, foulingResistanceUncertainty }) =>
      formatFigureText(foulingResistance, 'foulingResistance', system, {
        uncertainty: foulingResistanceUncertainty,
      }),
    ),
    row('Share of the allowance', ({ allowanceUsed }) =>
      formatFigureText(allowanceUsed, 'fraction', system, { digits: 2 }),
    ),
    row('Clean by', cleanByText),
  ];
}

function cleanByText(trend: UnitTrend): string {
  const limit = governingLimit(trend);
  if (limit === null) return '–';
  if (limit.crossedDay !== null) return `over its limit since ${formatDay(limit.crossedDay)}`;
  if (limit.p50Day !== null) return formatDay(limit.p50Day);
  return limit.withinHorizon === null ? 'too early to say' : 'not within the horizon';
}
