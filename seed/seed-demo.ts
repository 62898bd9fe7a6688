import type { Actor } from '@/lib/contract/actor';
import { acceptPlan } from '@/lib/work/accept-plan';
import { analyse } from '@/lib/work/analyse';
import { actingAs, type Context, closeContext, openContext } from '@/lib/work/context';
import { importColumns } from '@/lib/work/import-readings';
import { makePlan } from '@/lib/work/make-plan';
import { readPlanning } from '@/lib/work/read-planning';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { saveCalendar } from '@/lib/work/save-calendar';
import { addDemoAccounts } from './demo-accounts';
import { KALDHOLM } from './demo-fleet';
import { demoCalendars, demoPlans, demoRegistrations, demoSpan, lastHour } from './demo-plan';
import { generateReadings } from './generate/generate-readings';

export type SeedRequest = {
  /** End of the record [ms]; default: the context's clock, cut to the hour. */
  end?: number;
  onProgress?: (done: number, of: number, tag: string) => void;
};

export type Seeded = { units: number; readings: number; cleanings: number; end: number };

/** Who the record of changes says made all this. */
const DEMONSTRATION: Actor = { kind: 'system', id: null, name: 'demonstration' };

/** Fills a database with the demonstration: fleets, eighteen months of readings, cleanings, calendars, analyses, a plan. */
export async function seedDemo(databaseUrl: string, request: SeedRequest = {}): Promise<Seeded> {
  const context = actingAs(await openContext(databaseUrl), DEMONSTRATION);
  try {
    const end = lastHour(request.end ?? context.now());
    await addDemoAccounts(context);
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
    for (const calendar of demoCalendars(end)) await saveCalendar(context, calendar);
    await analyse(context, {});
    await acceptOnePlan(context);
    return seeded;
  } finally {
    await closeContext(context);
  }
}

/** Within so many seconds the plan is as near to the least cost as anybody could tell. */
const PLAN_SECONDS = 3;

/** The power station's planner has accepted a plan for its calendar; the dairy's is still to be made. */
async function acceptOnePlan(context: Context): Promise<void> {
  const { request } = await readPlanning(context, KALDHOLM.site.name);
  const result = await makePlan(context, { ...request, timeLimit: PLAN_SECONDS });
  await acceptPlan(context, { request, result, by: 'Planner', note: null });
}
