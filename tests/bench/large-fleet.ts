import type { Prisma } from '@/generated/sqlite/client';
import type { Unit } from '@/lib/contract/fleet-file';
import { fleetUnit } from '@/lib/report/fleet/fleet-unit';
import type { UnitSummary } from '@/lib/report/fleet/unit-summary';
import { toBlocks } from '@/lib/store/series/daily-block';
import { DAY_MS } from '@/lib/time/calendar-day';
import { type Context, closeContext, openContext } from '@/lib/work/context';
import { readFleet } from '@/lib/work/read-fleet';
import { seedDemo } from '@/seed/seed-demo';
import { shiftSummary } from './shifted-summary';

export type LargeFleet = {
  units: number;
  /** Share of the units that have ten years of daily figures; the others have as many as the demonstration. */
  tenYears: number;
  say(line: string): void;
};

const UNITS_OF_A_SITE = 250;
const YEARS = 10;
const DAYS_OF_A_YEAR = 365;
const AT_ONCE = 250;
const LAST_READINGS = 24;

/**
 * Fills a database with a large fleet: the units of the demonstration, analysed as ever, and copies of them under other tags, at
 * other sites and with other clean-by days, written past the verbs so that it takes minutes and not days. A bench only.
 */
export async function makeLargeFleet(databaseUrl: string, asked: LargeFleet): Promise<void> {
  asked.say('making and analysing the units that are copied');
  await seedDemo(databaseUrl);
  const context = await openContext(databaseUrl);
  try {
    await copyFleet(context, asked);
  } finally {
    await closeContext(context);
  }
}

/** The same over a database that holds a demonstration already. */
export async function copyFleet(context: Context, { units, tenYears, say }: LargeFleet): Promise<void> {
  const { entities } = context.store;
  const fleet = await readFleet(context);
  const models = fleet.units.filter(({ trend }) => trend !== null);
  say(`${models.length} units to copy; ten years of daily figures for each of them`);
  for (const model of models) await lengthen(context, model);
  const sites = await copySites(context, Math.ceil(units / UNITS_OF_A_SITE));
  const summaries = new Map(models.map((model) => [model.record.id, fleetUnit(model).summary!]));
  const longUntil = Math.round(units * tenYears);
  for (let from = 0; from < units - models.length; from += AT_ONCE) {
    const copies = Array.from({ length: Math.min(AT_ONCE, units - models.length - from) }, (_, at) => {
      const number = from + at;
      const model = models[number % models.length]!;
      return { number, model, siteId: sites[number % sites.length]!, tag: tagOf(model.record.tag, number) };
    });
    await entities.unit.createMany({ data: copies.map(({ tag, siteId }) => ({ tag, siteId })) });
    const stored = await entities.unit.findMany({ where: { tag: { in: copies.map(({ tag }) => tag) } } });
    const ids = new Map(stored.map(({ id, tag }) => [tag, id]));
    await entities.unitVersion.createMany({
      data: copies.map(({ tag, model }) => ({
        unitId: ids.get(tag)!,
        number: 1,
        document: JSON.stringify({ ...model.record.unit, tag } satisfies Unit),
        createdAt: new Date(model.record.versionSince),
      })),
    });
    await entities.$transaction(
      async (transaction) => {
        for (const { tag, number, model } of copies) {
          const copy = { id: ids.get(tag)!, tag, number, of: model.record };
          await copyResult(transaction, copy, summaries.get(model.record.id)!);
          await copyHistory(transaction, copy, number < longUntil ? 0 : model.daily.day[0]!);
        }
      },
      { timeout: 600_000, maxWait: 600_000 },
    );
    if ((from / AT_ONCE) % 8 === 0) say(`${from + copies.length + models.length} units`);
  }
}

function tagOf(model: string, number: number): string {
  return `${model.slice(0, 12)}-${String(number + 1).padStart(5, '0')}`;
}

type Model = Awaited<ReturnType<typeof readFleet>>['units'][number];

/** Years of the same daily figures and cleanings before the record of a unit, so that there is as much to read as after ten years. */
async function lengthen({ store }: Context, { record, daily, cleanings }: Model): Promise<void> {
  const months = new Set<number>();
  const first = daily.day[0] ?? 0;
  for (let year = 1; year <= YEARS; year++) {
    const back = year * DAYS_OF_A_YEAR;
    const days = daily.day.map((day) => day - back);
    const blocks = toBlocks({ ...daily, day: days }).filter(
      ({ month }) => month < Math.floor(first / 30.44) - 1 && !months.has(month),
    );
    for (const { month } of blocks) months.add(month);
    const rows = blocks.map(({ month, figures }) => ({
      unitId: record.id,
      month,
      figures: new Uint8Array(figures),
    }));
    await store.entities.dailyBlock.createMany({ data: rows });
    await store.entities.cleaning.createMany({
      data: cleanings
        .map(({ at, method, cost, durationMs }) => ({ at: at - back * DAY_MS, method, cost, durationMs }))
        .filter(({ at }) => at < first * DAY_MS)
        .map(({ at, ...rest }) => ({ ...rest, unitId: record.id, at: new Date(at) })),
    });
  }
}

async function copySites({ store }: Context, count: number): Promise<number[]> {
  const known = await store.entities.site.findMany({ include: { outages: true } });
  for (let at = 0; at < count; at++) {
    const { name, timeZone, currency, outages } = known[at % known.length]!;
    const made = await store.entities.site.create({
      data: { name: `${name} ${at + 1}`, timeZone, currency },
    });
    await store.entities.outage.createMany({
      data: outages.map(({ id: _, ...outage }) => ({ ...outage, siteId: made.id })),
    });
  }
  const all = await store.entities.site.findMany({ orderBy: { id: 'asc' } });
  return all.slice(known.length).map(({ id }) => id);
}

type Copy = { id: number; tag: string; number: number; of: Model['record'] };

async function copyResult(
  transaction: Prisma.TransactionClient,
  { id, tag, number, of }: Copy,
  model: UnitSummary,
): Promise<void> {
  const summary = JSON.stringify(shiftSummary(model, number));
  const [before, after] = [`"tag":${JSON.stringify(of.tag)}`, `"tag":${JSON.stringify(tag)}`];
  await transaction.$executeRaw`
    INSERT INTO unit_result
      (unit_id, as_of, computed_at, method_version, unit_version, nominal, telling, summary, basis, result, trend)
    SELECT ${id}, as_of, computed_at, method_version, 1, nominal, telling, ${summary}, basis,
      replace(result, ${before}, ${after}), trend
    FROM unit_result WHERE unit_id = ${of.id}`;
}

async function copyHistory(
  transaction: Prisma.TransactionClient,
  { id, of }: Copy,
  fromDay: number,
): Promise<void> {
  const fromMonth = fromDay === 0 ? 0 : Math.floor(fromDay / 30.44) - 1;
  await transaction.$executeRaw`
    INSERT INTO daily_block (unit_id, month, figures)
    SELECT ${id}, month, figures FROM daily_block WHERE unit_id = ${of.id} AND month >= ${fromMonth}`;
  // As many as tell what day it is: without any the worker would find the results to be of another.
  await transaction.$executeRaw`
    INSERT INTO reading
      (unit_id, time, hot_in, hot_out, cold_in, cold_out, hot_flow, cold_flow, hot_pressure_drop, cold_pressure_drop,
       flow_basis, batch_id)
    SELECT ${id}, time, hot_in, hot_out, cold_in, cold_out, hot_flow, cold_flow, hot_pressure_drop, cold_pressure_drop,
      flow_basis, batch_id
    FROM reading WHERE unit_id = ${of.id} ORDER BY time DESC LIMIT ${LAST_READINGS}`;
  await transaction.$executeRaw`
    INSERT INTO cleaning (unit_id, at, duration_ms, method, cost, note, revision)
    SELECT ${id}, at, duration_ms, method, cost, note, 0 FROM cleaning WHERE unit_id = ${of.id}`;
  await transaction.$executeRaw`
    INSERT INTO unit_statement (unit_id, day, computed_at, method_version, statement)
    SELECT ${id}, day, computed_at, method_version, statement FROM unit_statement WHERE unit_id = ${of.id}`;
}
