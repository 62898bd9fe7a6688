import type { FittedModel, GrowthModelName } from './growth';

/** Models with a shape parameter, and its name among the model's parameters. */
export const SHAPE_NAMES = {
  none: null,
  linear: null,
  'delayed-linear': 'delay',
  'falling-rate': 'exponent',
  asymptotic: 'timeConstant',
} as const satisfies Record<GrowthModelName, string | null>;

/** Name of the parameter that multiplies the form. */
export const AMPLITUDE_NAMES = {
  none: null,
  linear: 'rate',
  'delayed-linear': 'rate',
  'falling-rate': 'coefficient',
  asymptotic: 'asymptote',
} as const satisfies Record<GrowthModelName, string | null>;

/**
 * Form of a growth model: what its amplitude (rate, coefficient or asymptote) multiplies.
 *
 * @param name growth model
 * @param shape delay [days], exponent [-] or time constant [days]; not used by the others
 * @param t age [days], ≥ 0
 * @returns 0 (none), t (linear), max(0, t − delay), t^exponent or 1 − e^(−t/timeConstant)
 * @range t ≥ 0; 0 < exponent ≤ 1, timeConstant > 0
 * @source Epstein, Thinking about heat transfer fouling: a 5×5 matrix, Heat Transfer Eng. 4 (1983) 43-56; Kern & Seaton, British Chem. Eng. 4 (1959) 258-262
 * @check tests/published/fouling-models.test.ts
 */
export function growthForm(name: GrowthModelName, shape: number, t: number): number {
  switch (name) {
    case 'none':
      return 0;
    case 'linear':
      return t;
    case 'delayed-linear':
      return delayedAge(shape, t);
    case 'falling-rate':
      return t ** shape;
    case 'asymptotic':
      return -Math.expm1(-t / shape);
  }
}

/**
 * Age since the end of a delay: the form of delayed linear growth.
 *
 * @param delay [days]
 * @param t age [days], ≥ 0
 * @returns max(0, t − delay) [days]
 * @range any
 * @source see `growthForm`
 * @check tests/published/fouling-models.test.ts
 */
export function delayedAge(delay: number, t: number): number {
  return Math.max(0, t - delay);
}

/**
 * Slope of a growth model's form with age.
 *
 * @param name growth model
 * @param shape delay [days], exponent [-] or time constant [days]
 * @param t age [days], ≥ 0
 * @returns derivative of `growthForm` with age [1/days, except linear models: -]; Infinity for a power at age 0
 * @range as growthForm
 * @source derivative of the forms in Epstein, Heat Transfer Eng. 4 (1983) 43-56
 * @check tests/core/growth/forms.test.ts
 */
export function growthFormSlope(name: GrowthModelName, shape: number, t: number): number {
  switch (name) {
    case 'none':
      return 0;
    case 'linear':
      return 1;
    case 'delayed-linear':
      return t > shape ? 1 : 0;
    case 'falling-rate':
      return shape * t ** (shape - 1);
    case 'asymptotic':
      return Math.exp(-t / shape) / shape;
  }
}

/**
 * Smooth fouling resistance of a growth model at an age.
 *
 * @param model name and parameters (r0 and those of its form, see growth.ts)
 * @param ageDays age in the cycle [days], ≥ 0
 * @returns [m²·K/W]
 * @range ageDays ≥ 0
 * @source Epstein, Heat Transfer Eng. 4 (1983) 43-56; Kern & Seaton, British Chem. Eng. 4 (1959) 258-262
 * @check tests/published/fouling-models.test.ts
 */
export function growthValue(model: Pick<FittedModel, 'name' | 'parameters'>, ageDays: number): number {
  return model.parameters.r0! + amplitudeOf(model) * growthForm(model.name, shapeOf(model), ageDays);
}

/**
 * Rate of growth of a growth model at an age.
 *
 * @param model name and parameters
 * @param ageDays age in the cycle [days], > 0
 * @returns [m²·K/W per day]
 * @range ageDays > 0
 * @source derivative of growthValue
 * @check tests/core/growth/forms.test.ts
 */
export function growthRate(model: Pick<FittedModel, 'name' | 'parameters'>, ageDays: number): number {
  const amplitude = amplitudeOf(model);
  return amplitude === 0 ? 0 : amplitude * growthFormSlope(model.name, shapeOf(model), ageDays);
}

/**
 * What multiplies the form of a fitted model.
 *
 * @param model name and parameters
 * @returns rate, coefficient or asymptote [m²·K/W by the unit of the form]; 0 for no growth
 * @range any
 * @source see growth.ts
 * @check tests/core/growth/forms.test.ts
 */
export function amplitudeOf({ name, parameters }: Pick<FittedModel, 'name' | 'parameters'>): number {
  const key = AMPLITUDE_NAMES[name];
  return key === null ? 0 : parameters[key]!;
}

/**
 * Shape of a fitted model.
 *
 * @param model name and parameters
 * @returns delay [days], exponent [-] or time constant [days]; 0 where the model has none
 * @range any
 * @source see growth.ts
 * @check tests/core/growth/forms.test.ts
 */
export function shapeOf({ name, parameters }: Pick<FittedModel, 'name' | 'parameters'>): number {
  const key = SHAPE_NAMES[name];
  return key === null ? 0 : parameters[key]!;
}
