import { readPublished } from '../../support/published-data';
import type { SourceName } from './sources';
import { digits } from './tolerance';

/** A row of a release: a state and what it prints there. */
export type Numbers = Record<string, number>;
type Table = { rows: number[][] };
export const { cases, agreement_with_IAPWS95: agreement } = readPublished<{
  cases: Record<string, Numbers[]> & { liquid_grid: Table } & Record<
      'saturated_steam' | 'saturated_steam_by_temperature',
      Table
    >;
  agreement_with_IAPWS95: Record<
    'rho' | 'cp',
    { largest_relative_difference: number; at_t_C: number; at_p_MPa: number }
  >;
}>('iapws-water');

/** Half a digit of the nine that the file gives, and a little more. */
export const COMPUTED = digits(
  9,
  'as the file gives; the last digit of three saturation pressures is one off',
  1e-10,
);
/** What our tables may add to that. */
export const TABULATED = digits(9, 'our tables against the formula', 1e-7);

/** A quantity and the place of its column in a table. */
export type Column = { quantity: string; unit: string; place: number; source: SourceName };
