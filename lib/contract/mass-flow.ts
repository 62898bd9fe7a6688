import { AppError } from './app-error';
import type { Unit } from './fleet-file';
import { inSi, type Quantity } from './quantity';
import { conversionToSi } from './ucum';

/** Densities of what passes the meters [kg/m³]; null where not known, or where it is vapour. */
export type MeterDensities = { hotFlow: number | null; coldFlow: number | null };

/** A stated flow as mass; a volume flow by the density at its meter's own temperature. */
export function massFlow(
  unit: Unit,
  { given, field }: { given: Quantity; field: string },
  density: number | null,
): number {
  if (conversionToSi(given.unit, 'massFlow') !== null) return inSi(given, 'massFlow');
  if (density === null || Number.isNaN(density)) {
    const message =
      'is a volume flow without a density of what passes the meter (none stated, or vapour): state it as a mass flow';
    throw new AppError('invalid-input', `${unit.tag}: ${field} ${message}`, [{ field, message }]);
  }
  return inSi(given, 'volumeFlow') * density;
}
