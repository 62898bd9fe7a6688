import { expect, it } from 'vitest';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import type { NominalAsked } from '@/lib/store/series/nominal-search';
import { analyse } from '@/lib/work/analyse';
import type { Context } from '@/lib/work/context';
import { importColumns } from '@/lib/work/import-readings';
import { registerFleet } from '@/lib/work/register-fleet';
import { generateReadings } from '@/seed/generate/generate-readings';
import { makeHeldOutFleet } from '@/seed/held-out';
import { temporaryDatabase } from '../support/temporary-database';

const DAY = 86_400_000;
const HOUR = 3_600_000;
const START = Date.parse('2026-02-01T00:00:00Z');
const DAYS = 40;
/** A flow is typed in, and measured from this day on. */
const MEASURED_FROM = 30;
/** Days that come one by one, each analysed. */
const FIRST_BY_ITSELF = 26;
/** A day of which a reading is replaced afterwards. */
const REPLACED = 10;

function between(readings: ReadingColumns, from: number, to: number): ReadingColumns {
  const rows = [...readings.time.keys()].filter((row) => {
    const day = (readings.time[row]! - START) / DAY;
    return day >= from && day < to;
  });
  const part = makeReadingColumns(rows.length);
  rows.forEach((row, i) => {
    part.time[i] = readings.time[row]!;
    part.flowBasis[i] = readings.flowBasis[row]!;
    for (const sensor of SENSORS) part[sensor][i] = readings[sensor][row]!;
  });
  return part;
}

/** Listens to what is asked of nominal sensors, and checks each answer against a search through the whole record. */
function listen({ store: { series } }: Context) {
  const asked: NominalAsked[] = [];
  const answers = new Set<number>();
  const { nominalSensorsOf } = series;
  series.nominalSensorsOf = async (questions) => {
    const bits = await nominalSensorsOf(questions);
    for (const question of questions) {
      const { unitId, to } = question;
      expect(bits.get(unitId)).toBe(await series.nominalSensors(unitId, to));
      answers.add(bits.get(unitId)!);
    }
    asked.push(...questions);
    return bits;
  };
  return { asked, answers };
}

it('nominal sensors are told from what is known where nothing behind it has changed, and told the same', async () => {
  const { context, remove } = await temporaryDatabase();
  const { fleet, plans } = makeHeldOutFleet(905, 1);
  const { tag } = plans[0]!.unit;
  await registerFleet(context, fleet);
  const span = { start: START, end: START + DAYS * DAY, stepMs: HOUR, seed: 905 };
  const { readings } = generateReadings(plans[0]!, span);
  readings.time.forEach((time, row) => {
    if (time < START + MEASURED_FROM * DAY) readings.coldFlow[row] = 20;
  });
  const { asked, answers } = listen(context);
  const known = () => asked.splice(0).map((question) => question.known ?? null);
  await importColumns(context, tag, between(readings, 0, FIRST_BY_ITSELF));
  await analyse(context);
  // Of the first record nothing is known; what the fleet says adds no reading.
  expect(known()[0]).toBeNull();
  for (let day = FIRST_BY_ITSELF; day < DAYS; day++) {
    await importColumns(context, tag, between(readings, day, day + 1));
    await analyse(context);
    for (const question of known()) expect(question).not.toBeNull();
  }
  expect(answers.size).toBeGreaterThan(1);

  const changed = between(readings, REPLACED, REPLACED + 1);
  changed.hotIn.forEach((value, i) => {
    changed.hotIn[i] = value + 0.5;
  });
  await importColumns(context, tag, changed);
  await analyse(context);
  expect(known()[0]).toBeNull();

  const row = () => context.store.entities.unitResult.findFirstOrThrow();
  const { result, nominal } = await row();
  await analyse(context, { all: true });
  expect(await row()).toMatchObject({ result, nominal });
  await remove();
}, 240_000);
