import { fitCurve, type WhitenedFigures } from './curve-fit';
import { GROWTH_FORMS } from './form-grid';
import type { FormEvidence } from './pool-forms';

/** As many values as the stated uncertainties count for in a fit. */
const STEADYING = 2;

/**
 * How well each form explains the figures of a cycle, level and amplitude fitted anew for each.
 *
 * @param figures whitened figures of the cycle, without a prior rate
 * @returns −AIC/2 of each of GROWTH_FORMS, up to a constant [-]; all 0 without figures
 * @range  any count
 * @source Burnham & Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002, sect. 2.2; shapes are not fitted here
 * @check  tests/core/growth/pool-forms.test.ts
 */
export function formEvidence(figures: WhitenedFigures): FormEvidence {
  const count = figures.t.length;
  if (count === 0) return new Float64Array(GROWTH_FORMS.length);
  // The stated uncertainties steady the residual variance of a short cycle as they do in the fit.
  const steadied = count + STEADYING;
  return Float64Array.from(GROWTH_FORMS, ({ name, shape }) => {
    const { residualSumOfSquares } = fitCurve(figures, name, shape);
    const parameters = name === 'none' ? 2 : 3;
    return (-steadied / 2) * Math.log((residualSumOfSquares + STEADYING) / steadied) - parameters;
  });
}
