import type { FigureUncertainty } from '@/lib/core/fouling/uncertainty-budget';
import { LOST_DUTY_FIGURES } from '@/lib/core/pipeline/energy-lost';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { type Figure, formatFigure, formatMoney, MISSING } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { AnalysedUnit } from '@/lib/report/records';
import type { TypicalBudget } from './typical-budget';
import { unitPath } from './unit-address';

/** One main number of the unit: its figure, the time it holds for, and the step that shows how it was worked out. */
export type MainFigure = {
  label: string;
  figure: Figure;
  when: string | null;
  missing: string;
  step: string | null;
  /** Page that says more of it. */
  moreHref?: string;
};

/** Fouling, cleanliness, U and clean U, duty, what is lost: each with its unit, its time and its uncertainty where known. */
export function mainFigures(
  unit: AnalysedUnit,
  system: UnitSystem,
  typical: TypicalBudget | null,
): MainFigure[] {
  const { trend, daily } = unit;
  const row = lastFigureRow(daily);
  const day = row === null ? null : `median of ${formatDay(daily.day[row]!)}`;
  const of = (column: Float64Array) => (row === null ? null : column[row]!);
  const missing = trend?.state === 'no-data' ? 'no recent data' : 'no answer yet';
  const base = { missing, when: day };
  return [
    {
      ...base,
      label: 'Fouling resistance',
      figure: formatFigure(trend?.foulingResistance, 'foulingResistance', system, {
        uncertainty: trend?.foulingResistanceUncertainty ?? null,
      }),
      when: trend?.foulingResistance == null ? null : 'smooth value today',
      step: 'rf',
    },
    {
      ...base,
      label: 'Cleanliness',
      figure: formatFigure(trend?.cleanliness, 'fraction', system, { digits: 2 }),
      when: trend?.cleanliness == null ? null : 'U / clean U',
      step: 'cleanliness',
    },
    {
      ...base,
      label: 'U',
      figure: formatFigure(of(daily.overallU), 'conductance', system, {
        uncertainty: spreadOf(of(daily.overallU), typical?.budget.overallU),
      }),
      step: 'u',
    },
    {
      ...base,
      label: 'Clean U, same flows',
      figure: formatFigure(of(daily.cleanU), 'conductance', system),
      step: 'clean-u',
    },
    {
      ...base,
      label: 'Duty',
      figure: formatFigure(of(daily.duty), 'power', system, {
        uncertainty: spreadOf(of(daily.duty), typical?.budget.duty),
      }),
      step: 'duty',
    },
    {
      ...base,
      label: 'Lost duty',
      figure: formatFigure(trend?.lostDuty, 'power', system, {
        digits: 2,
        uncertainty: lostDutySpread(of(daily.duty), typical),
      }),
      when: trend?.lostDuty == null ? null : 'mean of the last 7 days',
      step: 'lost-duty',
    },
    ...lossFigures(unit, { system, missing }),
  ];
}

/** u of a day's figure, in proportion to it: the typical reading may be another day's. */
function spreadOf(value: number | null, figure: FigureUncertainty | undefined): number | null {
  return value === null || figure === undefined ? null : (figure.daily / figure.value) * value;
}

/** u of the mean lost duty of several days, in proportion to the duty; averaging takes nothing off its systematic part. */
function lostDutySpread(duty: number | null, typical: TypicalBudget | null): number | null {
  if (duty === null || typical === null) return null;
  const { lostDuty, duty: typicalDuty } = typical.budget;
  const random = lostDuty.daily ** 2 - lostDuty.systematic ** 2;
  return (Math.sqrt(random / LOST_DUTY_FIGURES + lostDuty.systematic ** 2) / typicalDuty.value) * duty;
}

function lossFigures(
  { trend, result, record }: AnalysedUnit,
  { system, missing }: { system: UnitSystem; missing: string },
): MainFigure[] {
  const costHref = `${unitPath(record.tag)}/cost`;
  const energy: MainFigure = {
    label: 'Energy lost',
    // Results of an earlier version count a held outlet as lost heat.
    figure: formatFigure(
      result?.energyLost?.sinceCleaning ?? trend?.energyLostSinceCleaning,
      'energy',
      system,
      { digits: 2 },
    ),
    when: 'since the last cleaning',
    missing,
    step: null,
    moreHref: costHref,
  };
  const cost = result?.cost?.sinceCleaning ?? null;
  if (cost === null) return [energy];
  const perDay = result?.cost?.perDay ?? null;
  const money: MainFigure = {
    label: 'Cost of fouling',
    figure: { number: formatMoney(cost, record.site.currency), uncertainty: null, unit: '' },
    when:
      perDay === null
        ? 'since the last cleaning'
        : `since the last cleaning; ${formatMoney(perDay, record.site.currency)}/day now`,
    missing,
    step: null,
    moreHref: costHref,
  };
  return money.figure.number === MISSING ? [energy] : [energy, money];
}

/** Row of the newest day with a fouling figure; null without any. */
export function lastFigureRow(daily: DailyColumns): number | null {
  const row = daily.foulingResistance.findLastIndex((value) => Number.isFinite(value));
  return row < 0 ? null : row;
}
