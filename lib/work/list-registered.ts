import type { Site, Unit } from '@/lib/contract/fleet-file';
import { listUnits } from '@/lib/store/entities/units';
import type { Context } from './context';

export type RegisteredUnit = { tag: string; site: Site; version: number; unit: Unit };

/** Every registered unit with its newest datasheet, by tag. */
export async function listRegistered(context: Context): Promise<{ units: RegisteredUnit[] }> {
  const units = await listUnits(context.store.entities);
  return {
    units: units.map(({ tag, site: { name, timeZone, currency }, version, unit }) => ({
      tag,
      site: { name, timeZone, currency },
      version,
      unit,
    })),
  };
}
