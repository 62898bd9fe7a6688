import { analyse } from '@/lib/work/analyse';
import { closeContext, openContext } from '@/lib/work/context';
import { importColumns } from '@/lib/work/import-readings';
import { recordCleaning, recordOutage } from '@/lib/work/record-event';
import { registerFleet } from '@/lib/work/register-fleet';
import { demoOutages, demoPlans, demoRegistrations, demoSpan, lastHour } from './demo-plan';
import { generateReadings } from './generate/generate-readings';

export type SeedRequest = {
  /** End of the record [ms]; default: the context's clock, cut to the hour. */
  end?: number;
  onProgress?: (done: number, of: number, tag: string) => void;
};

export type Seeded = { units: number; readings: number; cleanings: number; end: number };

/** Fills a database with the demonstration: fleets, eighteen months of readings, cleanings, outages, analyses. */
export async function seedDemo(databaseUrl: string, request: SeedRequest = {}): Promise<Seeded> {
  const context = await openContext(databaseUrl);
  try {
    const end = lastHour(request.end ?? context.now());
    for (const fleet of demoRegistrations(end)) await registerFleet(context, fleet);
    const plans = demoPlans();
    const seeded: Seeded = { units: plans.length, readings: 0, cleanings: 0, end };
    for (const [index, plan] of plans.entries()) {
      const { tag } = plan.unit;
      const { readings, truth } = generateReadings(plan, demoSpan(end, index));
      await importColumns(context, tag, readings);
      seeded.readings += readings.time.length;
      for (const { at, method, cost, durationMs } of truth.cleanings.filter(({ isRecorded }) => isRecorded)) {
        await recordCleaning(context, { tag, at, method, cost, durationMs });
        seeded.cleanings++;
      }
      request.onProgress?.(index + 1, plans.length, tag);
    }
    for (const outage of demoOutages(end)) await recordOutage(context, outage);
    await analyse(context, {});
    return seeded;
  } finally {
    await closeContext(context);
  }
}
