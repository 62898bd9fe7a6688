import { growthValue } from '@/lib/core/growth/forms';
import type { FittedModel } from '@/lib/core/growth/growth';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { formatFigureText, formatNumber } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { MODEL_WORDS } from '@/lib/report/format/words';
import { governingLimit } from '@/lib/report/unit/fouling-chart';
import { limitInWords } from '@/lib/report/unit/limit-words';
import { localDay } from '@/lib/time/local-clock';
import type { WorkedLine, WorkedStep } from './worked-step';

/** A model below this weight is left out of the working [-]: it moves no date. */
const SHOWN_WEIGHT = 0.01;

const FORMS: Record<FittedModel['name'], string> = {
  none: 'R_{f} = R_{0}',
  linear: 'R_{f} = R_{0} + rate · t',
  'delayed-linear': 'R_{f} = R_{0} + rate · max(0, t − delay)',
  'falling-rate': 'R_{f} = R_{0} + coefficient · t^{exponent}',
  asymptotic: 'R_{f} = R_{0} + asymptote · (1 − e^{−t / time constant})',
};

/** How each parameter is written: as fouling resistance, per day, in days, or as it is. */
const PARAMETER_WORDS: Record<
  string,
  { label: string; kind: 'foulingResistance' | 'foulingRate' | 'days' | 'number' }
> = {
  r0: { label: 'R_{0}', kind: 'foulingResistance' },
  rate: { label: 'rate', kind: 'foulingRate' },
  delay: { label: 'delay', kind: 'days' },
  coefficient: { label: 'coefficient', kind: 'foulingResistance' },
  exponent: { label: 'exponent', kind: 'number' },
  asymptote: { label: 'asymptote', kind: 'foulingResistance' },
  timeConstant: { label: 'time constant', kind: 'days' },
};

/** The growth models with their weights and today's value, and the day the limit is crossed; null before a projection. */
export function growthStep(
  trend: UnitTrend | null,
  now: number,
  { system, timeZone }: { system: UnitSystem; timeZone: string },
): WorkedStep | null {
  const growth = trend?.growth ?? null;
  const start = trend?.cycles.at(-1)?.startDay;
  if (trend === null || growth === null || start === undefined) return null;
  const age = localDay(now, timeZone) - start;
  const models = [...growth.models]
    .filter(({ weight }) => weight >= SHOWN_WEIGHT)
    .sort((a, b) => b.weight - a.weight);
  return {
    id: 'clean-by',
    title: 'Growth and the clean-by date',
    lines: [
      ...models.map((model) => modelLine(model, age, system)),
      ...averageLine(trend, system),
      ...crossingLine(trend, system),
    ],
    notes: [
      `Fitted to ${growth.count} daily figures over ${formatNumber(growth.spanDays, 0)} days of the cycle that began ${formatDay(start)}; t is the age in days, ${age} today. Weights follow from AICc.`,
    ],
  };
}

function modelLine(model: FittedModel, age: number, system: UnitSystem): WorkedLine {
  const parameters = Object.entries(model.parameters).map(([name, value]) =>
    parameterText(name, value, system),
  );
  return {
    symbols: FORMS[model.name],
    figures: `${MODEL_WORDS[model.name]}, weight ${formatNumber(model.weight * 100, 0)} %: ${parameters.join(', ')}`,
    result: formatFigureText(growthValue(model, age), 'foulingResistance', system, { digits: 3 }),
  };
}

function parameterText(name: string, value: number, system: UnitSystem): string {
  const words = PARAMETER_WORDS[name] ?? { label: name, kind: 'number' };
  if (words.kind === 'days') return `${words.label} = ${formatNumber(value, 0)} d`;
  return `${words.label} = ${formatFigureText(value, words.kind, system, { digits: 3 })}`;
}

function averageLine(trend: UnitTrend, system: UnitSystem): WorkedLine[] {
  if (trend.foulingResistance === null) return [];
  return [
    {
      symbols: 'R_{f} = Σ weight · R_{f,model}',
      figures: 'smooth fouling today, averaged over the models',
      result: formatFigureText(trend.foulingResistance, 'foulingResistance', system, {
        uncertainty: trend.foulingResistanceUncertainty,
      }),
    },
  ];
}

function crossingLine(trend: UnitTrend, system: UnitSystem): WorkedLine[] {
  const governing = governingLimit(trend);
  if (governing === null) return [];
  if (governing.limit.kind === 'pressure-drop') {
    return [
      {
        symbols: 'Δp_{ref}(t) = limit',
        figures: `${limitInWords(governing.limit, system)} at the design flow, which has models of its own`,
        result: crossingText(governing, trend.horizonDays),
      },
    ];
  }
  const level = formatFigureText(governing.foulingResistance, 'foulingResistance', system);
  return [
    {
      symbols: 'R_{f}(t) = limit',
      figures: `${level}: ${limitInWords(governing.limit, system)} under recent conditions`,
      result: crossingText(governing, trend.horizonDays),
    },
  ];
}

function crossingText(
  { p10Day, p50Day, p90Day, crossedDay, withinHorizon }: UnitTrend['limits'][number],
  horizonDays: number,
): string {
  if (crossedDay !== null) return `crossed ${formatDay(crossedDay)}`;
  const day = (value: number | null) => (value === null ? 'later' : formatDay(value));
  if (withinHorizon === null) return 'too few daily figures to project';
  if (p50Day === null) return `${formatNumber(withinHorizon * 100, 0)} % likely within ${horizonDays} days`;
  return `P10 ${day(p10Day)}, P50 ${day(p50Day)}, P90 ${day(p90Day)}`;
}
