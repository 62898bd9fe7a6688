import type { Fault } from '@/lib/contract/app-error';
import type { UnitFigures } from '@/lib/contract/unit-figures';
import type { Context } from './context';
import { checkUnit } from './save-unit';
import { unitFigures } from './unit-figures';

/** What stands in the way of saving a unit as it is written so far, and what follows from it already. */
export type UnitPreview = { errors: Fault[]; figures: UnitFigures };

export async function previewUnit(context: Context, document: unknown): Promise<UnitPreview> {
  const { faults } = await checkUnit(context, document);
  const unit = typeof document === 'object' && document !== null && 'unit' in document ? document.unit : null;
  return { errors: faults, figures: unitFigures(unit) };
}
