import { findRoot } from '@/lib/core/fit/brent';
import { readPublished } from '../../support/published-data';
import type { Check } from './check';
import { absolute } from './tolerance';

type ThresholdCase = {
  id: string;
  constants: Record<string, number>;
  threshold_film_temperature?: { rows: number[][] };
};

const { threshold } = readPublished<{ cases: { threshold: ThresholdCase[] } }>('fouling-models').cases;

/**
 * The temperature at which deposition and removal of Ebert & Panchal balance. The program holds no threshold model; its
 * root finder solves theirs, whose closed form gives the figure.
 */
export function thresholdChecks(): Check[] {
  const { constants: c, threshold_film_temperature } = threshold.find((each) => each.id === 'ebert-panchal')!;
  return [
    {
      id: 'threshold ebert-panchal',
      quantity: 'film temperature at which nothing deposits, by our root finder',
      unit: 'K',
      source: 'Ebert & Panchal 1995',
      origin: 'computed',
      tolerance: absolute(6e-6, 'five decimals given'),
      rows: threshold_film_temperature!.rows.map(([reynolds, shear, theirs]) => ({
        at: `Re ${reynolds}, ${shear} Pa`,
        theirs: theirs!,
        ours: findRoot(
          (t) =>
            c.a_m2K_per_J! * reynolds! ** c.b! * Math.exp(-c.E_J_mol! / (c.R_J_molK! * t)) -
            c.g_m2K_per_J_per_Pa! * shear!,
          400,
          700,
        ),
      })),
    },
  ];
}
