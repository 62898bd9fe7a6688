import { cleanlinessOf } from '@/lib/core/fouling/conductance-figures';
import type { Inputs } from './rating-steps';

/** A film coefficient with a deposit on it, and by how much the deposit lowers it. */
function fouled(clean: number, fouling: number): Record<string, number> {
  const cleanliness = cleanlinessOf(fouling, clean);
  return { 'h fouled': cleanliness * clean, reduction: 100 * (1 - cleanliness) };
}

/** What our functions make of the inputs of each example of fouling alone, by the names of its answers. */
export const FOULING: Record<string, (x: Inputs) => Record<string, number>> = {
  'holman-10.3': (x) => fouled(x.h_clean!, x.Rf!),
  'cengel-11.2': (x) => {
    const inner = Math.PI * x.Di! * x.L!;
    const outer = Math.PI * x.Do! * x.L!;
    // Films and wall are the example's own steps: tubes of two diameters are no part of the program, their fouling is.
    const wall = Math.log(x.Do! / x.Di!) / (2 * Math.PI * x.k! * x.L!);
    const clean = 1 / inner / (1 / (x.hi! * inner) + wall + 1 / (x.ho! * outer));
    const deposits = x.Rf_i! + (x.Rf_o! * inner) / outer;
    const Ui = cleanlinessOf(deposits, clean) * clean;
    return { resistance: 1 / (Ui * inner), Ui, Uo: (Ui * inner) / outer };
  },
  'resistances-in-series': (x) => {
    const clean = 1 / (1 / x.h_inside! + 1 / x.h_wall! + 1 / x.h_outside!);
    const dirty = cleanlinessOf(x.Rf_inside! + x.Rf_outside!, clean) * clean;
    return { 'total resistance': 1 / dirty, 'U dirty': dirty, 'U clean': clean };
  },
  'sukhatme-7.1': (x) => fouled(x.h!, x.Rf!),
};
