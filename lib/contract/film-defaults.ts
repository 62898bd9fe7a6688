import type { Films } from '@/lib/core/exchange/exchanger';
import type { Unit } from './fleet-file';

/** Exponents of film coefficient on flow (common practice): turbulent tube flow, shell side, plate channel. */
const TUBE_EXPONENT = 0.8;
const SHELL_EXPONENT = 0.6;
const PLATE_EXPONENT = 0.7;
/** Where the datasheet does not split the clean resistance: a thin wall, and equal films on either side. */
const DEFAULT_WALL_SHARE = 0.05;

/** Film shares and exponents of a unit, what the datasheet leaves out filled in by construction. */
export function filmsOf(unit: Unit): Films {
  const stated = unit.films ?? {};
  const wallShare = stated.wallShare ?? Math.min(DEFAULT_WALL_SHARE, 1 - (stated.hotShare ?? 0));
  const exponents = defaultExponents(unit);
  return {
    hotShare: stated.hotShare ?? (1 - wallShare) / 2,
    wallShare,
    hotExponent: stated.hotExponent ?? exponents.hot,
    coldExponent: stated.coldExponent ?? exponents.cold,
  };
}

function defaultExponents(unit: Unit): { hot: number; cold: number } {
  switch (unit.construction ?? constructionOf(unit.arrangement.kind)) {
    case 'plate':
      return { hot: PLATE_EXPONENT, cold: PLATE_EXPONENT };
    case 'shell-and-tube':
      return (unit.tubeSide ?? 'cold') === 'cold'
        ? { hot: SHELL_EXPONENT, cold: TUBE_EXPONENT }
        : { hot: TUBE_EXPONENT, cold: SHELL_EXPONENT };
    case 'air-cooled':
      return { hot: TUBE_EXPONENT, cold: SHELL_EXPONENT };
    default:
      return { hot: TUBE_EXPONENT, cold: TUBE_EXPONENT };
  }
}

/** The construction an arrangement usually goes with, where the datasheet does not say. */
function constructionOf(kind: Unit['arrangement']['kind']): NonNullable<Unit['construction']> {
  if (kind === 'plate' || kind === 'shell-and-tube') return kind;
  return kind === 'crossflow' ? 'air-cooled' : 'double-pipe';
}
