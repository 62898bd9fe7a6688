import { analyse } from '@/lib/work/analyse';
import type { Context } from '@/lib/work/context';
import { importColumns } from '@/lib/work/import-readings';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { generateReadings } from '@/seed/generate/generate-readings';
import { makeHeldOutFleet } from '@/seed/held-out';

const DAY = 86_400_000;
/** End of the record: a Monday. */
export const RECORD_END = Date.parse('2026-06-01T00:00:00Z');
const RECORD_DAYS = 200;

/** A fleet with known truth, its readings in and analysed, with what cleanings take stated: something to plan. */
export async function plannedFleet(context: Context, { seed, units }: { seed: number; units: number }) {
  const { fleet, plans } = makeHeldOutFleet(seed, units);
  const priced = {
    ...fleet,
    units: fleet.units.map((unit) => ({
      ...unit,
      energy: { effect: 'heating' as const, price: { amount: 0.06, per: 'kW.h' }, efficiency: 0.9 },
      cleaning: {
        cost: 1500,
        duration: { value: 24, unit: 'h' },
        crewHours: 16,
        method: 'open and brush',
        downtimePerHour: 20,
      },
    })),
  };
  await registerFleet(context, priced);
  for (const [index, plan] of plans.entries()) {
    const { readings, truth } = generateReadings(plan, {
      start: RECORD_END - RECORD_DAYS * DAY,
      end: RECORD_END,
      stepMs: 3_600_000,
      seed: seed + index,
    });
    const { tag } = plan.unit;
    await importColumns(context, tag, readings);
    for (const { at } of truth.cleanings) await recordCleaning(context, { tag, at });
  }
  await analyse(context);
  return { site: fleet.site.name, tags: fleet.units.map(({ tag }) => tag) };
}
