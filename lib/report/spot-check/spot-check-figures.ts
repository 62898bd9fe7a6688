import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { foulingAtCleanliness } from '@/lib/core/fouling/conductance-figures';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { type Figure, formatFigure, formatNumber } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { LIMIT_WORDS } from '@/lib/report/format/words';
import { governingLimit } from '@/lib/report/unit/fouling-chart';
import type { CheckedReading } from './spot-check-records';

/** One figure of the check; `step` is the step of the working that shows where it comes from. */
export type CheckedFigure = {
  label: string;
  figure: Figure;
  note: string | null;
  step: string;
  missing: string;
};

/** Why a side's own duty or the balance may have no figure. */
const INFERRED = 'not checked: a value is inferred';

/** The figures an engineer looks for first, each with its standard uncertainty where it is known. */
export function checkedFigures({ evaluation }: CheckedReading, system: UnitSystem): CheckedFigure[] {
  const at = (
    name: 'hotDuty' | 'coldDuty' | 'duty' | 'balance' | 'lmtd' | 'correction' | 'effectiveness' | 'ntu',
  ) => evaluation[name][0]!;
  const { conductance, overallU, cleanU, foulingResistance, cleanliness, lostDuty } = evaluation;
  const { dutyUncertainty, overallUUncertainty, foulingResistanceUncertainty } = evaluation;
  const plain = (label: string, value: number, step: string): CheckedFigure => ({
    label,
    figure: formatFigure(value, 'number', system, { digits: 4 }),
    note: null,
    step,
    missing: INFERRED,
  });
  const sized = (
    label: string,
    value: number,
    kind: Parameters<typeof formatFigure>[1],
    more: { uncertainty?: number; digits?: number; step: string; note?: string },
  ): CheckedFigure => {
    const { uncertainty = null, digits = 4, step, note = null } = more;
    return {
      label,
      figure: formatFigure(value, kind, system, { uncertainty, digits }),
      note,
      step,
      missing: INFERRED,
    };
  };
  return [
    sized('Fouling resistance', foulingResistance[0]!, 'foulingResistance', {
      uncertainty: foulingResistanceUncertainty[0]!,
      step: 'rf',
    }),
    sized('Cleanliness', cleanliness[0]!, 'fraction', { digits: 3, step: 'rf', note: 'U / clean U' }),
    sized('U', overallU[0]!, 'conductance', { uncertainty: overallUUncertainty[0]!, step: 'u' }),
    sized('Clean U', cleanU[0]!, 'conductance', { step: 'clean-u', note: 'at these flows' }),
    sized('Duty', at('duty'), 'power', { uncertainty: dutyUncertainty[0]!, step: 'duty' }),
    sized('Lost duty', lostDuty[0]!, 'power', { digits: 3, step: 'lost-duty' }),
    sized('Duty of the hot side', at('hotDuty'), 'power', { step: 'duty' }),
    sized('Duty of the cold side', at('coldDuty'), 'power', { step: 'duty' }),
    sized('Balance error', at('balance'), 'fraction', {
      digits: 2,
      step: 'duty',
      note: '(hot − cold) / mean',
    }),
    sized('LMTD', at('lmtd'), 'temperatureDifference', { step: 'lmtd' }),
    plain('Correction F', at('correction'), 'ntu'),
    plain('Effectiveness ε', at('effectiveness'), 'capacity-rates'),
    plain('NTU', at('ntu'), 'ntu'),
    sized('UA', conductance[0]!, 'totalConductance', { step: 'ntu' }),
  ];
}

/** Share of the allowance this check finds used, as the bar draws it; null where no limit can be put in terms of fouling. */
export type CheckedAllowance = {
  used: number;
  uncertainty: number;
  usedText: string;
  limitText: string;
  summary: string;
};

export function checkedAllowance(
  { record, evaluation }: CheckedReading,
  trend: UnitTrend | null,
  system: UnitSystem,
): CheckedAllowance | null {
  const allowed = allowedFouling(record.exchanger, trend, evaluation.cleanU[0]!);
  if (allowed === null) return null;
  const used = evaluation.foulingResistance[0]! / allowed.foulingResistance;
  const uncertainty = evaluation.foulingResistanceUncertainty[0]! / allowed.foulingResistance;
  if (!Number.isFinite(used) || !Number.isFinite(uncertainty)) return null;
  const percent = (share: number) => formatNumber(share * 100, 0);
  const usedText = `${percent(used)} ± ${percent(uncertainty)} %`;
  const limit = formatFigure(allowed.foulingResistance, 'foulingResistance', system);
  const limitText = `limit ${limit.number} ${limit.unit}`;
  return {
    used,
    uncertainty,
    usedText,
    limitText,
    summary: `${usedText} of the way from clean to the limit of ${limit.number} ${limit.unit} (${LIMIT_WORDS[allowed.kind]}).`,
  };
}

/** The limit the unit's page judges by; without an analysis, the first one that says by itself how much fouling it allows. */
function allowedFouling(exchanger: Exchanger, trend: UnitTrend | null, cleanU: number) {
  const governing = governingLimit(trend);
  const level = governing?.foulingResistance ?? null;
  if (governing !== null && level !== null && level > 0)
    return { kind: governing.limit.kind, foulingResistance: level };
  for (const limit of exchanger.limits) {
    if (limit.kind === 'fouling-resistance') return { kind: limit.kind, foulingResistance: limit.value };
    if (limit.kind === 'cleanliness')
      return { kind: limit.kind, foulingResistance: foulingAtCleanliness(limit.below, cleanU) };
  }
  return null;
}
