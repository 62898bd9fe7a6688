import type { WorkList } from '@/lib/contract/planned';
import { readingsCsv } from './api';
import { FEW_PLATES } from './clean-records';
import { FALL_DAY, unitWithFall } from './fall-record';
import { plannedFleet, RECORD_END } from './planned-fleet';
import type { TemporaryDatabase } from './temporary-database';
import { plainFleet, plainUnit } from './units';

/** What the steps before have answered, by operation. */
export type Answers = Map<string, unknown>;

/** Units that can be planned for, and their site. */
export type Setting = { tags: string[]; planned: string };

/** A call of one operation; `path` and `body` may need what earlier steps answered. */
export type Step = {
  operation: string;
  path: (answers: Answers, setting: Setting) => string;
  body?: (answers: Answers, setting: Setting) => unknown;
  /** Sent as it is, with its media type. */
  raw?: { type: string; content: BodyInit };
  accept?: string;
};

/** A database in which every operation has something to answer. */
export async function storySetting(database: TemporaryDatabase): Promise<Setting> {
  const { context } = database;
  const { site: planned, tags } = await plannedFleet(context, { seed: 31, units: 2 });
  await unitWithFall(context);
  context.now = () => RECORD_END;
  // The unit with a fall takes the tag of one of them.
  return { tags: tags.filter((tag) => tag !== FEW_PLATES.tag), planned };
}

const { site } = plainFleet(['any']);
const BY = 'night shift';
const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
);

const at = (path: string) => () => path;
const ofFirst =
  (rest: string) =>
  (_: Answers, { tags }: Setting) =>
    `units/${encodeURIComponent(tags[0]!)}${rest}`;
const fallUnit = (rest: string) => at(`units/${encodeURIComponent(FEW_PLATES.tag)}${rest}`);
const answered = <T>(answers: Answers, operation: string): T => answers.get(operation) as T;
const workId = (answers: Answers, index: number) =>
  (answers.get('POST /api/v1/plan/accept') as WorkList).work[index]!.id;
const lastBatch = (answers: Answers) => answered<{ batch: number }>(answers, 'POST /api/v1/imports').batch;
const day = (answers: Answers, index: number, hours: number) =>
  new Date(
    Date.parse((answers.get('POST /api/v1/plan/accept') as WorkList).work[index]!.from) + hours * 3_600_000,
  ).toISOString();

const CSV = readingsCsv('N-1', 48, '2026-05-01T00:00:00Z');
const CHANGED = `${CSV.replaceAll(',50.00,', ',51.00,')}N-1,yesterday,50,40,30,40,10,10\n`;
const csv = (content: string) => ({ type: 'text/csv', content });
const mapping = { sensors: { 'TI-1': { tag: 'N-1', sensor: 'hotIn', unit: 'Cel' }, 'TI-2': null } };
const planRequest = ({ planned }: Setting) => ({
  site: planned,
  online: { crewHoursPerWeek: 80 },
  confidence: 0.5,
  weeks: 26,
});

/** Every operation at least once, in an order in which each finds what it needs. */
export const STORY: Step[] = [
  { operation: 'GET /api/v1/openapi.json', path: at('openapi.json') },
  { operation: 'POST /api/v1/fleet', path: at('fleet'), body: () => plainFleet(['N-1', 'N-2']) },
  {
    operation: 'POST /api/v1/units',
    path: at('units?check=1'),
    body: () => ({ site, unit: plainUnit('N-3') }),
  },
  { operation: 'POST /api/v1/units', path: at('units'), body: () => ({ site, unit: plainUnit('N-3') }) },
  { operation: 'GET /api/v1/units', path: at('units') },
  { operation: 'POST /api/v1/imports/preview', path: at('imports/preview?name=a.csv'), raw: csv(CHANGED) },
  { operation: 'POST /api/v1/imports', path: at('imports?name=a.csv&check=1'), raw: csv(CSV) },
  { operation: 'POST /api/v1/imports', path: at('imports?name=a.csv'), raw: csv(CSV) },
  { operation: 'POST /api/v1/imports', path: at('imports?name=a.csv'), raw: csv(CSV) },
  {
    operation: 'POST /api/v1/imports',
    path: at('imports?name=lines.csv'),
    raw: csv(readingsCsv('N-2', 30, '2026-05-01T00:00:00Z')),
    accept: 'application/x-ndjson',
  },
  { operation: 'POST /api/v1/imports', path: at('imports?name=b.csv'), raw: csv(CHANGED) },
  { operation: 'GET /api/v1/imports', path: at('imports') },
  {
    operation: 'GET /api/v1/imports/[batch]/set-aside',
    path: (answers) => `imports/${lastBatch(answers)}/set-aside`,
  },
  {
    operation: 'GET /api/v1/imports/[batch]/set-aside',
    path: (answers) => `imports/${lastBatch(answers)}/set-aside?format=csv`,
  },
  {
    operation: 'GET /api/v1/imports/[batch]/replaced',
    path: (answers) => `imports/${lastBatch(answers)}/replaced`,
  },
  {
    operation: 'GET /api/v1/imports/[batch]/undo-preview',
    path: (answers) => `imports/${lastBatch(answers)}/undo-preview`,
  },
  { operation: 'POST /api/v1/imports/[batch]/undo', path: (answers) => `imports/${lastBatch(answers)}/undo` },
  {
    operation: 'PUT /api/v1/mappings/[name]',
    path: at('mappings/Hourly%20log'),
    body: () => ({ mapping, revision: null }),
  },
  { operation: 'GET /api/v1/mappings', path: at('mappings') },
  { operation: 'GET /api/v1/mappings/[name]', path: at('mappings/Hourly%20log') },
  {
    operation: 'POST /api/v1/imports',
    path: at('imports?name=wide.csv&mappingName=Hourly%20log'),
    raw: csv('time,TI-1,TI-2\n2026-05-09T00:00:00Z,50,7\n'),
  },
  {
    operation: 'DELETE /api/v1/mappings/[name]',
    path: (answers) =>
      `mappings/Hourly%20log?revision=${answered<{ revision: number }>(answers, 'GET /api/v1/mappings/[name]').revision}`,
  },
  {
    operation: 'POST /api/v1/evaluate',
    path: at('evaluate'),
    body: () => ({
      unit: plainUnit('any'),
      readings: [
        {
          time: '2026-01-01T00:00:00Z',
          hotIn: { value: 50, unit: 'Cel' },
          hotOut: { value: 41, unit: 'Cel' },
          coldIn: { value: 30, unit: 'Cel' },
          coldOut: { value: 102.2, unit: '[degF]' },
          hotFlow: { value: 10, unit: 'kg/s' },
          coldFlow: null,
        },
        { time: '2026-01-01T01:00:00Z' },
      ],
    }),
  },
  { operation: 'GET /api/v1/fleet', path: at('fleet') },
  { operation: 'GET /api/v1/units/[tag]', path: ofFirst('') },
  { operation: 'GET /api/v1/units/[tag]', path: fallUnit('') },
  { operation: 'GET /api/v1/units/[tag]/daily', path: ofFirst('/daily') },
  { operation: 'GET /api/v1/health', path: at('health') },
  { operation: 'GET /api/v1/health', path: at('health?format=csv') },
  { operation: 'GET /api/v1/record', path: at('record') },
  { operation: 'GET /api/v1/record', path: at('record?format=csv') },
  { operation: 'GET /api/v1/costs', path: at('costs?period=last-12-months') },
  { operation: 'GET /api/v1/costs', path: at('costs?format=csv') },
  {
    operation: 'POST /api/v1/prices',
    path: at('prices'),
    body: () => ({
      site: site.name,
      supply: 'natural gas',
      from: '2026-01-01',
      price: { amount: 0.07, per: 'kW.h' },
      by: BY,
    }),
  },
  { operation: 'GET /api/v1/prices', path: at('prices') },
  { operation: 'GET /api/v1/cleanings', path: at('cleanings?period=all') },
  { operation: 'GET /api/v1/cleanings', path: at('cleanings?period=all&format=csv') },
  { operation: 'GET /api/v1/units/[tag]/falls', path: fallUnit('/falls') },
  {
    operation: 'POST /api/v1/units/[tag]/falls',
    path: fallUnit('/falls'),
    body: () => ({ day: FALL_DAY, answer: 'cleaning', by: BY }),
  },
  {
    operation: 'POST /api/v1/units/[tag]/falls/[id]/withdraw',
    path: (answers) =>
      fallUnit(
        `/falls/${answered<{ answers: { id: number }[] }>(answers, 'POST /api/v1/units/[tag]/falls').answers[0]!.id}/withdraw`,
      )(),
    body: () => ({ by: BY, note: 'another unit' }),
  },
  {
    operation: 'POST /api/v1/units/[tag]/cleanings',
    path: fallUnit('/cleanings'),
    body: () => ({
      at: '2025-02-10T08:00:00Z',
      method: 'lance',
      cost: 900,
      duration: { value: 8, unit: 'h' },
    }),
  },
  { operation: 'GET /api/v1/units/[tag]/cleanings', path: fallUnit('/cleanings') },
  {
    operation: 'PATCH /api/v1/units/[tag]/cleanings/[id]',
    path: (answers) => fallUnit(`/cleanings/${newestCleaning(answers)}`)(),
    body: () => ({ method: 'brush', by: BY, reason: 'wrong tool noted', revision: 0 }),
  },
  {
    operation: 'POST /api/v1/cleaning-files',
    path: (answers) => `cleaning-files?cleaning=${newestCleaning(answers)}&name=before.png`,
    raw: { type: 'image/png', content: PNG },
  },
  {
    operation: 'GET /api/v1/cleaning-files/[id]',
    path: (answers) =>
      `cleaning-files/${answered<{ id: number }>(answers, 'POST /api/v1/cleaning-files').id}`,
  },
  {
    operation: 'POST /api/v1/units/[tag]/cleanings/[id]/withdraw',
    path: (answers) => fallUnit(`/cleanings/${newestCleaning(answers)}/withdraw`)(),
    body: () => ({ by: BY, note: 'another unit' }),
  },
  {
    operation: 'POST /api/v1/units/[tag]/verdicts',
    path: ofFirst('/verdicts'),
    body: () => ({
      from: '2026-03-01T00:00:00Z',
      to: '2026-03-02T00:00:00Z',
      verdict: 'exclude',
      note: 'meter was out',
      by: BY,
    }),
  },
  { operation: 'GET /api/v1/units/[tag]/verdicts', path: ofFirst('/verdicts') },
  {
    operation: 'POST /api/v1/units/[tag]/verdicts/[id]/withdraw',
    path: (answers, setting) =>
      ofFirst(
        `/verdicts/${answered<{ verdicts: { id: number }[] }>(answers, 'POST /api/v1/units/[tag]/verdicts').verdicts[0]!.id}/withdraw`,
      )(answers, setting),
    body: () => ({ by: BY, note: 'it was not' }),
  },
  { operation: 'GET /api/v1/units/[tag]/references', path: ofFirst('/references') },
  {
    operation: 'POST /api/v1/units/[tag]/references',
    path: ofFirst('/references?check=1'),
    body: () => ({ method: 'scale' }),
  },
  {
    operation: 'POST /api/v1/units/[tag]/references',
    path: ofFirst('/references'),
    body: () => ({ method: 'datasheet', acceptedBy: BY, reason: 'begins anew', after: 0 }),
  },
  { operation: 'GET /api/v1/review', path: at('review?since=2026-05-01') },
  {
    operation: 'POST /api/v1/review/marks',
    path: at('review/marks'),
    body: (_, { tags }) => ({
      tag: tags[0],
      line: 'cleaned@20500',
      by: BY,
      kind: 'note',
      text: 'seen on the round',
    }),
  },
  {
    operation: 'PUT /api/v1/calendar',
    path: at('calendar'),
    body: () => ({
      site: site.name,
      outages: [{ name: 'Summer', from: '2026-08-01', to: '2026-08-10', crewHours: 200 }],
      crewHoursPerWeek: 40,
      notTogether: [['N-1', 'N-2']],
    }),
  },
  { operation: 'POST /api/v1/plan', path: at('plan'), body: (_, setting) => planRequest(setting) },
  {
    operation: 'POST /api/v1/plan/accept',
    path: at('plan/accept'),
    body: (_, setting) => ({
      request: planRequest(setting),
      cleanings: ['06-15', '07-13', '08-10', '09-07'].map((day) => ({
        tag: setting.tags[0],
        start: `2026-${day}T08:00:00Z`,
      })),
      by: BY,
      acceptClashes: true,
    }),
  },
  { operation: 'GET /api/v1/plan/work', path: at('plan/work') },
  { operation: 'GET /api/v1/plan/work', path: at('plan/work?format=ics') },
  { operation: 'GET /api/v1/plan/work', path: at('plan/work?format=csv') },
  { operation: 'GET /api/v1/plan/work', path: at('plan/work?format=xlsx') },
  {
    operation: 'POST /api/v1/plan/work/[id]/move',
    path: (answers) => `plan/work/${workId(answers, 0)}/move`,
    body: (answers) => ({ from: day(answers, 0, 7 * 24), reason: 'rain', by: BY }),
  },
  {
    operation: 'POST /api/v1/plan/work/[id]/call-off',
    path: (answers) => `plan/work/${workId(answers, 3)}/call-off`,
    body: () => ({ reason: 'spare bought', by: BY }),
  },
  {
    operation: 'POST /api/v1/units/[tag]/cleanings',
    path: ofFirst('/cleanings'),
    body: () => ({ at: '2026-05-28T08:00:00Z' }),
  },
  { operation: 'GET /api/v1/units/[tag]/cleanings', path: ofFirst('/cleanings') },
  {
    operation: 'POST /api/v1/plan/work/[id]/link',
    path: (answers) => `plan/work/${workId(answers, 1)}/link`,
    body: (answers) => ({ cleaning: newestCleaning(answers), by: BY }),
  },
  {
    operation: 'POST /api/v1/plan/work/[id]/done',
    path: (answers) => `plan/work/${workId(answers, 2)}/done`,
    body: () => ({ at: '2026-05-30T08:00:00Z', by: BY }),
  },
  { operation: 'GET /api/v1/fleet', path: at('fleet?format=xlsx') },
  {
    operation: 'POST /api/v1/fleet',
    path: at('fleet?check=1'),
    raw: csv('tag,service\nN-9,cooler\n'),
  },
  { operation: 'GET /api/v1/changes', path: at('changes') },
  { operation: 'GET /api/v1/changes', path: at('changes?format=csv') },
];

function newestCleaning(answers: Answers): number {
  return answered<{ cleanings: { id: number }[] }>(answers, 'GET /api/v1/units/[tag]/cleanings').cleanings.at(
    -1,
  )!.id;
}
