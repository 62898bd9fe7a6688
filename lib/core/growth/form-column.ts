import { GROWTH_FORMS, placesCovered, type ShapedName, shapeAt } from './form-grid';
import { growthForm } from './forms';
import type { GrowthModelName } from './growth';

/** Places tried first where other cycles may tell the shape [-]. */
export const COARSE_WITH_OTHERS = 41;
/** Ages up to this one are kept [days]: more than ten years of one cycle. */
const LONGEST_KEPT_DAYS = 4096;

/** Shapes that the cycles of every unit are tried on, with the form at each whole day as far as it was asked for. */
const KEPT = new Map<ShapedName, Map<number, Float64Array>>(
  // Delays are not among them: their form is no dearer to work out than to look up.
  (['falling-rate', 'asymptotic'] as const).map((name) => {
    const compared = GROWTH_FORMS.filter((form) => form.name === name).map(({ shape }) => shape);
    const shapes = [...compared, ...coarseShapes(name)];
    return [name, new Map(shapes.map((shape) => [shape, new Float64Array()]))];
  }),
);

function coarseShapes(name: ShapedName): number[] {
  const [from, to] = placesCovered(name);
  const step = (to - from) / (COARSE_WITH_OTHERS - 1);
  return Array.from({ length: COARSE_WITH_OTHERS }, (_, i) => shapeAt(name, from + i * step));
}

/**
 * The form of a growth model at many ages. On whole days it is looked up for the shapes that every cycle is tried on.
 *
 * @param name growth model
 * @param shape as for `growthForm`
 * @param t ages [days], ≥ 0, n values
 * @param out n values, overwritten: `growthForm` at each of them
 * @returns out
 * @range as for `growthForm`
 * @source see `growthForm`
 * @check tests/core/growth/forms.test.ts
 */
export function formColumn(
  name: GrowthModelName,
  shape: number,
  { t, out }: { t: Float64Array; out: Float64Array },
): Float64Array {
  const kept = keptForms(name, shape, t);
  for (let i = 0; i < t.length; i++) {
    const age = t[i]!;
    const known = kept === null ? undefined : kept[age];
    out[i] = known === undefined ? growthForm(name, shape, age) : known;
  }
  return out;
}

/** Forms on the whole days from 0 on; null for a shape that is not kept. */
function keptForms(name: GrowthModelName, shape: number, t: Float64Array): Float64Array | null {
  const shapes = KEPT.get(name as ShapedName);
  const kept = shapes?.get(shape);
  if (shapes === undefined || kept === undefined) return null;
  const needed = Math.min(LONGEST_KEPT_DAYS, Math.ceil(t.at(-1) ?? 0) + 1);
  if (kept.length >= needed) return kept;
  const longer = new Float64Array(Math.min(LONGEST_KEPT_DAYS, 2 * needed));
  longer.set(kept);
  for (let age = kept.length; age < longer.length; age++) longer[age] = growthForm(name, shape, age);
  shapes.set(shape, longer);
  return longer;
}
