import { parse as parseCsv } from 'csv-parse/sync';
import ICAL from 'ical.js';
import readXlsxFile from 'read-excel-file/node';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import * as oneFile from '@/app/api/v1/cleaning-files/[id]/route';
import * as files from '@/app/api/v1/cleaning-files/route';
import * as callOff from '@/app/api/v1/plan/work/[id]/call-off/route';
import * as done from '@/app/api/v1/plan/work/[id]/done/route';
import * as link from '@/app/api/v1/plan/work/[id]/link/route';
import * as move from '@/app/api/v1/plan/work/[id]/move/route';
import * as list from '@/app/api/v1/plan/work/route';
import { workListSchema } from '@/lib/contract/planned';
import { listUnits } from '@/lib/store/entities/units';
import { acceptPlan } from '@/lib/work/accept-plan';
import { showCleanings } from '@/lib/work/read-cleanings';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { answerOf, apiDatabase, post, postJson, request } from '../support/api';
import { ANY_REQUEST, plannedCleaning, planResultOf } from '../support/plan-records';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

const NOW = Date.parse('2026-05-04T08:00:00Z');
const BY = 'shift lead';

let database: TemporaryDatabase;
beforeEach(async () => {
  database = await apiDatabase();
  database.context.now = () => NOW;
  await registerFleet(database.context, plainFleet(['E-1', 'E-2']));
  const cleanings = [
    plannedCleaning('E-1', '2026-05-20T06:00:00Z', { outage: 'Spring', cost: 4000.256 }),
    plannedCleaning('E-2', '2026-05-21T06:00:00Z', { outage: '=1+1', method: '@SUM(A1), "hot"' }),
  ];
  const result = planResultOf(cleanings);
  await acceptPlan(database.context, { request: ANY_REQUEST, result, by: 'planner', note: null });
});
afterEach(() => database.remove());

const workNow = async () =>
  workListSchema.parse((await answerOf(list.GET(request('plan/work')))).document).work;
const VERB = new Map([
  [done, 'done'],
  [move, 'move'],
  [callOff, 'call-off'],
  [link, 'link'],
]);
const send = (route: typeof done, id: number, document: unknown) => {
  const sent = postJson(`plan/work/${id}/${VERB.get(route)}`, document);
  return answerOf(route.POST(sent, { params: Promise.resolve({ id: `${id}` }) }));
};
const file = (format: string) => list.GET(request(`plan/work?format=${format}`));
const fieldsOf = (document: Record<string, unknown>) =>
  (document.errors as { field: string }[]).map(({ field }) => field);

describe('the work list over HTTP', () => {
  it('moves, calls off and finishes work, and answers with the list', async () => {
    const [first, second] = await workNow();
    const moved = await send(move, first!.id, {
      from: '2026-05-22T06:00:00Z',
      reason: 'rain',
      by: BY,
    });
    expect(workListSchema.parse(moved.document).work[1]).toMatchObject({ id: first!.id, revision: 1 });
    expect((await send(callOff, second!.id, { reason: 'spare bought', by: BY })).status).toBe(200);
    database.context.now = () => Date.parse('2026-05-23T08:00:00Z');
    const finished = await send(done, first!.id, { at: '2026-05-22T20:00:00Z', cost: 3800, by: BY });
    expect(workListSchema.parse(finished.document).work).toMatchObject([
      { tag: 'E-2', state: 'called-off' },
      { tag: 'E-1', state: 'done', cleaning: expect.any(Number) },
    ]);
    expect((await send(done, first!.id, { at: '2026-05-22T20:00:00Z', by: BY })).status).toBe(409);
  });

  it('brings the results of the unit up to date when work is done or linked, so that it is measured', async () => {
    const { context } = database;
    const [first, second] = await workNow();
    context.now = () => Date.parse('2026-05-23T08:00:00Z');
    await recordCleaning(context, { tag: 'E-2', at: Date.parse('2026-05-21T18:00:00Z') });
    const [cleaning] = (await showCleanings(context, 'E-2')).cleanings;
    const units = new Map((await listUnits(context.store.entities)).map(({ id, tag }) => [tag, id]));
    const isDue = async (tag: string) => (await context.store.series.due()).has(units.get(tag)!);
    expect([await isDue('E-1'), await isDue('E-2')]).toEqual([true, true]);
    expect((await send(done, first!.id, { at: '2026-05-20T20:00:00Z', by: BY })).status).toBe(200);
    expect([await isDue('E-1'), await isDue('E-2')]).toEqual([false, true]);
    expect((await send(link, second!.id, { cleaning: cleaning!.id, by: BY })).status).toBe(200);
    expect(await isDue('E-2')).toBe(false);
  });

  it('answers a move with its cost and what it breaks', async () => {
    const [first] = await workNow();
    const moved = { from: '2026-05-22T06:00:00Z', reason: 'rain', by: BY };
    expect((await send(move, first!.id, moved)).document).toMatchObject({
      tag: 'E-1',
      outage: null,
      cost: 4000.256,
      breaks: ['no crew cleans outside outages'],
    });
  });

  it('gives out done work as it was: calendar, CSV and spreadsheet beside what was planned', async () => {
    database.context.now = () => Date.parse('2026-05-23T08:00:00Z');
    const [first] = await workNow();
    await send(done, first!.id, {
      at: '2026-05-22T20:00:00Z',
      duration: { value: 6, unit: 'h' },
      method: 'steam',
      cost: 3800.5,
      by: BY,
    });
    const events = new ICAL.Component(ICAL.parse(await (await file('ics')).text()))
      .getAllSubcomponents('vevent')
      .map((component) => new ICAL.Event(component));
    const event = events.find(({ uid }) => uid === first!.calendarId)!;
    expect([event.summary, event.sequence]).toEqual(['Cleaned E-1', 1]);
    expect(event.startDate.toJSDate()).toEqual(new Date('2026-05-22T14:00:00Z'));
    expect(event.endDate.toJSDate()).toEqual(new Date('2026-05-22T20:00:00Z'));
    expect(event.description).toMatch(/^Done\.(.|\n)*Method: steam/);
    expect(events.find(({ uid }) => uid !== first!.calendarId)!.summary).toBe('Clean E-2');

    const [row, other] = parseCsv(await (await file('csv')).text(), { columns: true }) as Record<
      string,
      string
    >[];
    expect(row).toMatchObject({
      from: '2026-05-20T07:00:00+01:00',
      method: 'hot caustic wash',
      cost: '4000.26',
      done_from: '2026-05-22T15:00:00+01:00',
      done_to: '2026-05-22T21:00:00+01:00',
      done_method: 'steam',
      done_cost: '3800.5',
    });
    expect(other).toMatchObject({ done_to: '', done_cost: '' });
    const [sheet] = await readXlsxFile(Buffer.from(await (await file('xlsx')).arrayBuffer()));
    const [head, cells] = sheet!.data;
    expect(cells![head!.indexOf('done_cost')]).toBe(3800.5);
  });

  it('names the field that is wrong, and unknown work', async () => {
    const [first] = await workNow();
    const refused = await send(done, first!.id, { at: 'Monday', cost: -1 });
    expect(refused).toMatchObject({ status: 422, type: 'application/problem+json' });
    expect(fieldsOf(refused.document)).toEqual(['at', 'cost']);
    expect((await send(link, first!.id, { cleaning: 77, by: BY })).status).toBe(404);
    expect((await send(callOff, 999, { reason: 'r', by: BY })).status).toBe(404);
    expect((await answerOf(file('pdf'))).status).toBe(422);
  });

  it('is given out as a calendar with one event per piece, cancelled where it was called off', async () => {
    const [first, second] = await workNow();
    await send(callOff, second!.id, { reason: 'spare bought', by: BY });
    const answer = await file('ics');
    expect(answer.headers.get('content-type')).toBe('text/calendar; charset=utf-8');
    expect(answer.headers.get('content-disposition')).toBe('attachment; filename="cleanby-work-list.ics"');
    const events = new ICAL.Component(ICAL.parse(await answer.text())).getAllSubcomponents('vevent');
    expect(
      events.map((event) => ['uid', 'sequence', 'status'].map((name) => event.getFirstPropertyValue(name))),
    ).toEqual([
      [first!.calendarId, 0, 'CONFIRMED'],
      [second!.calendarId, 1, 'CANCELLED'],
    ]);
  });

  it('is given out as CSV in which no text begins like a formula', async () => {
    const rows = parseCsv(await (await file('csv')).text(), { columns: true }) as Record<string, string>[];
    expect(rows.map(({ tag, cost, outage }) => [tag, cost, outage])).toEqual([
      ['E-1', '4000.26', 'Spring'],
      ['E-2', '4000', "'=1+1"],
    ]);
    expect(rows[1]!.method).toBe(`'@SUM(A1), "hot"`);
  });

  it('is given out as a spreadsheet of texts and numbers, none of them a formula', async () => {
    const bytes = Buffer.from(await (await file('xlsx')).arrayBuffer());
    const [sheet] = await readXlsxFile(bytes);
    const [head, first, second] = sheet!.data;
    const column = (name: string) => head!.indexOf(name);
    expect(head!.slice(0, 4)).toEqual(['tag', 'site', 'from', 'to']);
    expect([first![column('tag')], first![column('cost')]]).toEqual(['E-1', 4000.26]);
    expect([second![column('outage')], second![column('method')]]).toEqual(['=1+1', '@SUM(A1), "hot"']);
  });
});

describe('files kept with a cleaning', () => {
  const PNG = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]);
  const keep = (cleaning: number, content: BodyInit, name = 'plates.png') =>
    answerOf(
      files.POST(post(`cleaning-files?${new URLSearchParams({ cleaning: `${cleaning}`, name })}`, content)),
    );
  const cleaned = async () => {
    database.context.now = () => Date.parse('2026-05-23T08:00:00Z');
    const [first] = await workNow();
    const { document } = await send(done, first!.id, { at: '2026-05-20T20:00:00Z', by: BY });
    return workListSchema.parse(document).work[0]!.cleaning!;
  };

  it('come back byte for byte, as a download whose type is not guessed', async () => {
    const cleaning = await cleaned();
    const name = 'Öl "vor" dem Spülen.png';
    const { status, document } = await keep(cleaning, PNG, name);
    expect(status).toBe(200);
    expect(document).toMatchObject({ cleaning, name, type: 'image/png', bytes: PNG.length });
    const params = Promise.resolve({ id: `${document.id}` });
    const answer = await oneFile.GET(request(`cleaning-files/${document.id}`), { params });
    expect(Buffer.from(await answer.arrayBuffer())).toEqual(PNG);
    expect(answer.headers.get('x-content-type-options')).toBe('nosniff');
    expect(answer.headers.get('content-type')).toBe('image/png');
    const [ascii, full] = answer.headers.get('content-disposition')!.split('; ').slice(1);
    expect(ascii).toBe('filename="_l _vor_ dem Sp_len.png"');
    expect(decodeURIComponent(full!.replace("filename*=UTF-8''", ''))).toBe(name);
  });

  it('are told by their first bytes, whatever their name says', async () => {
    const cleaning = await cleaned();
    const kinds: [string, Buffer][] = [
      ['image/jpeg', Buffer.from([0xff, 0xd8, 0xff, 0xe0])],
      ['image/webp', Buffer.from('RIFF\u0001\u0002\u0003\u0004WEBPVP8 ', 'latin1')],
      ['application/pdf', Buffer.from('%PDF-1.7\n')],
    ];
    for (const [type, content] of kinds) {
      expect((await keep(cleaning, content as never, 'x.exe')).document).toMatchObject({ type });
    }
    for (const content of ['<script>alert(1)</script>', 'GIF89a', 'MZ', '', 'RIFF1234AVI ']) {
      const refused = await keep(cleaning, content, 'photo.png');
      expect(refused.status).toBe(422);
      expect(fieldsOf(refused.document)).toEqual(['file']);
    }
  });

  it('are at most 10 MiB each and ten per cleaning, of a cleaning that exists', async () => {
    const cleaning = await cleaned();
    const large = Buffer.concat([PNG, Buffer.alloc(10 * 2 ** 20)]);
    expect((await keep(cleaning, large)).status).toBe(413);
    expect((await keep(cleaning, large.subarray(0, 10 * 2 ** 20) as never)).status).toBe(200);
    for (let count = 1; count < 10; count++) expect((await keep(cleaning, PNG)).status).toBe(200);
    expect((await keep(cleaning, PNG)).status).toBe(422);
    expect((await keep(999, PNG)).status).toBe(404);
  });
});
