import type { Fault } from '@/lib/contract/app-error';
import type { UnitFigures } from '@/lib/contract/unit-figures';
import type { Context } from './context';
import { checkUnit } from './save-unit';
import { physicsFaults, type UnitPart, unitFigures } from './unit-figures';

/** What stands in the way of saving a unit as it is written so far, and what follows from it already. */
export type UnitPreview = { errors: Fault[]; figures: UnitFigures };

export async function previewUnit(context: Context, document: unknown): Promise<UnitPreview> {
  const { faults } = await checkUnit(context, document);
  const part = unitPart(document);
  const known = new Set(faults.map(({ field }) => field));
  // The whole unit's check looks at the physics only once nothing is missing.
  const more = physicsFaults(part)
    .map((fault) => ({ ...fault, field: `unit.${fault.field}` }))
    .filter(({ field }) => !known.has(field));
  return { errors: [...faults, ...more], figures: unitFigures(part) };
}

function unitPart(document: unknown): UnitPart {
  const unit = typeof document === 'object' && document !== null && 'unit' in document ? document.unit : null;
  return typeof unit === 'object' && unit !== null ? (unit as UnitPart) : {};
}
