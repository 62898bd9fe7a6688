import { fitGrowth } from '@/lib/core/growth/fit-growth';
import { growthRate, growthValue } from '@/lib/core/growth/forms';
import type { FittedModel, Growth, GrowthModelName } from '@/lib/core/growth/growth';
import { crossedAge, projectCrossing } from '@/lib/core/growth/project-crossing';
import { readPublished } from '../../support/published-data';
import { type Check, single } from './check';
import type { SourceName } from './sources';
import { thresholdChecks } from './threshold';
import { relative } from './tolerance';

type Parameters = Record<string, number>;
type GrowthCase = {
  id: string;
  title: string;
  parameters: Parameters;
  t: number[];
  Rf: number[];
  limit?: number;
  time_to_limit?: number | null;
  R_star?: number;
  tau?: number;
};
const { growth } = readPublished<{ cases: { growth: GrowthCase[] } }>('fouling-models').cases;

/** The file asks for 1e-7 relative. */
const FILE = relative(1e-7, 'the file');

type Form = {
  name: GrowthModelName;
  source: SourceName;
  parameters: (p: Parameters) => Parameters;
  /** Age of the model at an age of the case, where the case starts later than the model. */
  modelAge?: (t: number, p: Parameters) => number;
};
const asymptotic = (p: Parameters) => ({ r0: 0, asymptote: p.R_star!, timeConstant: p.tau! });

/** The form of growth of the program that each case of the file is. */
export const FORMS: Record<string, Form> = {
  linear: { name: 'linear', source: 'Epstein 1983', parameters: (p) => ({ r0: 0, rate: p.k! }) },
  'delayed-linear': {
    name: 'delayed-linear',
    source: 'Epstein 1983',
    parameters: (p) => ({ r0: 0, rate: p.k!, delay: p.td! }),
  },
  power: {
    name: 'falling-rate',
    source: 'Konak 1973',
    parameters: (p) => ({ r0: 0, coefficient: p.a!, exponent: p.n! }),
  },
  'square-root-rate': {
    name: 'falling-rate',
    source: 'Epstein 1983',
    parameters: (p) => ({ r0: 0, coefficient: Math.sqrt(2 * p.k!), exponent: 0.5 }),
  },
  asymptotic: { name: 'asymptotic', source: 'Kern & Seaton 1959', parameters: asymptotic },
  'asymptotic-below-limit': { name: 'asymptotic', source: 'Kern & Seaton 1959', parameters: asymptotic },
  'delayed-asymptotic': {
    name: 'asymptotic',
    source: 'Kern & Seaton 1959',
    parameters: asymptotic,
    modelAge: (t, p) => Math.max(0, t - p.td!),
  },
};

/** A growth known exactly: one model, no uncertainty. */
function known(model: Pick<FittedModel, 'name' | 'parameters'>, lastAgeDays: number): Growth {
  const { r0, ...rest } = model.parameters;
  const amplitude = rest.rate ?? rest.coefficient ?? rest.asymptote ?? 0;
  const shape = rest.delay ?? rest.exponent ?? rest.timeConstant ?? 0;
  const curve = { shape, weight: 1, r0: r0!, amplitude, r0Variance: 0, amplitudeVariance: 0, covariance: 0 };
  return {
    models: [{ ...model, covariance: [], weight: 1, aicc: 0, curves: [curve] }],
    count: 0,
    spanDays: lastAgeDays,
    lastAgeDays,
    autocorrelation: 0,
    residualDeviation: 0,
    isFormExpected: false,
    widening: 1,
    ratePerDay: 0,
    ratePerDayUncertainty: 0,
    foulingResistance: 0,
    foulingResistanceUncertainty: 0,
  };
}

function curveChecks(): Check[] {
  return Object.entries(FORMS).map(([id, { name, source, parameters, modelAge = (t: number) => t }]) => {
    const one = growth.find((each) => each.id === id)!;
    const model = { name, parameters: parameters(one.parameters) };
    return {
      id: `growth ${id}`,
      quantity: `fouling resistance: ${one.title.toLowerCase()}`,
      unit: 'm²·K/W',
      source,
      origin: 'computed',
      tolerance: FILE,
      rows: one.t.map((t, i) => ({
        at: `day ${t}`,
        theirs: one.Rf[i]!,
        ours: growthValue(model, modelAge(t, one.parameters)),
      })),
    };
  });
}

/** A fit to a noise-free record up to the limit: its parameters and the crossing. */
function fittedChecks(one: GrowthCase, { name, source, parameters }: Form): Check[] {
  const wanted = parameters(one.parameters);
  const model = { name, parameters: wanted };
  const ageToday = Math.floor(one.time_to_limit ?? 200);
  const ageDays = Float64Array.from({ length: ageToday }, (_, i) => i + 1);
  const foulingResistance = ageDays.map((t) => growthValue(model, t));
  const fit = fitGrowth({ ageDays, foulingResistance, uncertainty: ageDays.map(() => 1e-9) });
  const best = fit.models.find((each) => each.name === name)!;
  const coming = projectCrossing({ growth: fit, limit: one.limit!, ageToday, horizonDays: 1000 });
  const common = { source, origin: 'computed', isIterated: true } as const;
  return [
    {
      ...common,
      id: `fit ${one.id}`,
      quantity: 'parameters of a fit to a record without noise',
      unit: 'days, m²·K/W',
      tolerance: {
        allowed: (theirs) => 1e-3 * Math.abs(theirs) + 1e-8,
        scale: 'relative',
        words: '0.001 relative and 1e-8: a fit that averages over shapes',
      },
      rows: [...Object.entries(wanted)].reverse().map(([key, theirs]) => ({
        at: key,
        theirs,
        ours: best.parameters[key]!,
      })),
    },
    single({
      ...common,
      id: `fit ${one.id}: crossing`,
      quantity: 'age at the limit by that fit',
      unit: 'days',
      tolerance: relative(1e-3, 'a fit that averages over shapes'),
      theirs: one.time_to_limit!,
      ours: coming.p50,
    }),
  ];
}

/** The crossing of the limit of a case still to come, its growth being known. */
function comingCrossing(one: GrowthCase, { name, parameters }: Form) {
  const growthKnown = known({ name, parameters: parameters(one.parameters) }, 1e4);
  return projectCrossing({ growth: growthKnown, limit: one.limit!, ageToday: 10, horizonDays: 1000 });
}

/** Probability that the growth of a case, being known, reaches its limit within the horizon. */
export function withinHorizon(id: string): number {
  return comingCrossing(growth.find((each) => each.id === id)!, FORMS[id]!).withinHorizon;
}

function crossingChecks(): Check[] {
  return Object.entries(FORMS).flatMap(([id, form]) => {
    const one = growth.find((each) => each.id === id)!;
    if (one.limit === undefined) return [];
    const model = { name: form.name, parameters: form.parameters(one.parameters) };
    const delay = form.modelAge ? one.parameters.td! : 0;
    const past = crossedAge(known(model, 365), one.limit);
    const coming = comingCrossing(one, form);
    const ages = {
      'already reached': past,
      'P10 to come': coming.p10,
      'P50 to come': coming.p50,
      'P90 to come': coming.p90,
    };
    const check: Check = {
      id: `time to limit ${id}`,
      quantity: `age at which ${one.limit} m²·K/W is reached${one.time_to_limit === null ? ': never' : ''}`,
      unit: 'days',
      source: form.source,
      origin: 'computed',
      tolerance: FILE,
      isIterated: true,
      rows: Object.entries(ages).map(([at, age]) => ({
        at,
        theirs: one.time_to_limit!,
        ours: age === null ? null : age + delay,
      })),
    };
    return form.modelAge ? [check] : [check, ...fittedChecks(one, form)];
  });
}

function rateChecks(): Check[] {
  const { parameters, R_star, tau } = growth.find((each) => each.id === 'kern-seaton-rate-form')!;
  const model = {
    name: 'asymptotic' as const,
    parameters: { r0: 0, asymptote: R_star!, timeConstant: tau! },
  };
  return [
    {
      id: 'growth kern-seaton-rate-form',
      quantity: 'rate of growth: deposition less removal in proportion to the deposit',
      unit: 'm²·K/(W·day)',
      source: 'Kern & Seaton 1959',
      origin: 'computed',
      tolerance: FILE,
      rows: [0, 45, 200].map((t) => ({
        at: `day ${t}`,
        theirs: parameters.phi_d! - parameters.b! * growthValue(model, t),
        ours: growthRate(model, t),
      })),
    },
  ];
}

export function growthChecks(): Check[] {
  return [...curveChecks(), ...rateChecks(), ...crossingChecks(), ...thresholdChecks()];
}
