import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as fleet from '@/app/api/v1/fleet/route';
import * as imports from '@/app/api/v1/imports/route';
import * as cleanings from '@/app/api/v1/units/[tag]/cleanings/route';
import * as daily from '@/app/api/v1/units/[tag]/daily/route';
import * as oneUnit from '@/app/api/v1/units/[tag]/route';
import * as units from '@/app/api/v1/units/route';
import { dailyResultSchema, unitResultSchema } from '@/lib/contract/results';
import type { UnitFigures } from '@/lib/contract/unit-figures';
import { verifyAny } from '@/lib/work/safekeeping';
import { answerOf, apiDatabase, post, postJson, readingsCsv, request } from '../support/api';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet, plainUnit } from '../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
});
afterAll(() => database.remove());

const { site } = plainFleet(['any']);
const save = (document: unknown) => answerOf(units.POST(postJson('units', document)));
const check = (document: unknown) => answerOf(units.POST(postJson('units?check=1', document)));
const at = (tag: string) => ({ params: Promise.resolve({ tag: encodeURIComponent(tag) }) });
const fieldsOf = (document: Record<string, unknown>) =>
  (document.errors as { field: string }[]).map(({ field }) => field);

describe('saving a unit', () => {
  it('adds it, lists it with its datasheet, and has no result before the first reading', async () => {
    const saved = await save({ site, unit: plainUnit('E/101 A') });
    expect(saved).toMatchObject({ status: 200, document: { tag: 'E/101 A', version: 1, outcome: 'added' } });
    const { document } = await answerOf(units.GET(request('units')));
    expect(document.units).toMatchObject([
      { tag: 'E/101 A', version: 1, site, unit: { area: { value: 20 } } },
    ]);
    const result = await answerOf(oneUnit.GET(request('units/E%2F101%20A'), at('E/101 A')));
    expect(unitResultSchema.parse(result.document)).toMatchObject({ tag: 'E/101 A', state: 'no-data' });
  });

  it('refuses a second unit of the same tag and names the field', async () => {
    const { status, document } = await save({ site, unit: plainUnit('E/101 A') });
    expect(status).toBe(422);
    expect(fieldsOf(document)).toEqual(['unit.tag']);
  });

  it('makes a new version of a changed datasheet and none of an unchanged one', async () => {
    const changed = plainUnit('E/101 A', { service: 'Oil cooler' });
    expect((await save({ site, unit: changed, version: 1 })).document).toMatchObject({
      outcome: 'updated',
      version: 2,
    });
    expect((await save({ site, unit: changed, version: 2 })).document).toMatchObject({
      outcome: 'unchanged',
      version: 2,
    });
  });

  it('refuses to write over what somebody else has changed since', async () => {
    const { status, type, document } = await save({ site, unit: plainUnit('E/101 A'), version: 1 });
    expect(status).toBe(409);
    expect(type).toBe('application/problem+json');
    expect(document.detail).toContain('version 2');
  });

  it('names every field that is not valid, of schema and of physics, and the remedy', async () => {
    const { design } = plainUnit('x');
    const wrong = {
      ...plainUnit('E-2'),
      design: { ...design, hotFlow: { value: 10, unit: 'm2' } },
      limits: [],
    };
    expect(fieldsOf((await save({ site, unit: wrong })).document)).toEqual([
      'unit.design.hotFlow.unit',
      'unit.limits',
    ]);
    const reversed = { ...plainUnit('E-2'), design: { ...design, hotOut: { value: 60, unit: 'Cel' } } };
    const { document } = await save({ site, unit: reversed });
    expect(document.errors).toEqual([
      { field: 'unit.design.hotOut', message: 'must be below hotIn: the hot stream is cooled' },
    ]);
  });

  it('refuses a duty point that no area could give in the arrangement, unless the clean U is stated', async () => {
    const celsius = (value: number) => ({ value, unit: 'Cel' });
    const { design } = plainUnit('x');
    // Both outlets end at 40 °C where they meet: co-current flow would need an infinite area, and 45 °C is beyond it.
    const beyond = { ...design, coldOut: celsius(45), hotOut: celsius(35) };
    const unit = plainUnit('E-3', { arrangement: { kind: 'co-current' }, design: beyond });
    const { document } = await save({ site, unit });
    expect(fieldsOf(document)).toEqual(['unit.design']);
    const stated = { ...unit, design: { ...beyond, cleanU: { value: 1000, unit: 'W/(m2.K)' } } };
    expect((await check({ site, unit: stated })).document.errors).toEqual([]);
  });

  it('refuses misspelt fields of the request, its site and its unit, and stores nothing', async () => {
    const unit = { ...plainUnit('E-4'), films: { hotShar: 0.4 } };
    const misspelt = await save({ site: { ...site, currancy: 'EUR' }, unit });
    expect(misspelt.status).toBe(422);
    expect(misspelt.document.errors).toEqual([
      { field: 'site.currancy', message: 'is not known here; did you mean "currency"?' },
      { field: 'unit.films.hotShar', message: 'is not known here; did you mean "hotShare"?' },
    ]);
    const versioned = await save({ site, unit: plainUnit('E-4'), vrsion: 1 });
    expect(versioned.document.errors).toEqual([
      { field: 'vrsion', message: 'is not known here; did you mean "version"?' },
    ]);
    const listed = await answerOf(units.GET(request('units')));
    expect(JSON.stringify(listed.document)).not.toContain('E-4');
  });

  it('goes on showing a datasheet that holds a field of another time, and finds nothing wrong with it', async () => {
    await save({ site, unit: plainUnit('E-OLD') });
    const { unitVersion } = database.context.store.entities;
    const write = (document: string) =>
      unitVersion.updateMany({ where: { unit: { tag: 'E-OLD' } }, data: { document } });
    const problems = async () =>
      (await verifyAny(database.url)).checks.find(({ name }) => name === 'datasheets')!.problems;
    const older = JSON.stringify({ ...plainUnit('E-OLD'), retired: { at: 1 } });
    await write(older);
    const { document } = await answerOf(units.GET(request('units')));
    expect(document.units).toContainEqual(
      expect.objectContaining({ tag: 'E-OLD', unit: JSON.parse(older) as unknown }),
    );
    expect(await problems()).toEqual([]);
    await write(JSON.stringify({ ...plainUnit('E-OLD'), retired: 1, limits: [] }));
    expect(await problems()).toEqual(['E-OLD, datasheet 1: limits: must hold at least 1']);
    await write(older);
    expect(await save({ site, unit: plainUnit('E-OLD'), version: 1 })).toMatchObject({ status: 200 });
  });

  it('refuses a body that is no JSON, or no unit at all', async () => {
    expect(await answerOf(units.POST(post('units', '{')))).toMatchObject({
      status: 422,
      document: { errors: [{ field: 'body' }] },
    });
    expect((await save({ site })).status).toBe(422);
    expect((await save([])).status).toBe(422);
    expect((await save(null)).status).toBe(422);
  });
});

describe('checking a unit while it is being filled in', () => {
  it('stores nothing and gives the figures that follow', async () => {
    const { status, document } = await check({ site, unit: plainUnit('E-9') });
    const figures = document.figures as UnitFigures;
    expect(status).toBe(200);
    // The case every practitioner does in the head: equal flows, so both differences and their mean are 10 K, F is 1,
    // half of the greatest duty is reached and NTU is 1 (tests/core/exchange has the exact values).
    expect(figures.lmtd).toBeCloseTo(10, 9);
    expect(figures.correction).toBeCloseTo(1, 6);
    expect(figures.effectiveness).toBeCloseTo(0.5, 6);
    expect(figures.ntu).toBeCloseTo(1, 6);
    expect(figures.hotDuty! / 1000).toBeCloseTo(418, -1);
    expect(figures.cleanU).toBeCloseTo((figures.hotDuty! + figures.coldDuty!) / 2 / (20 * 10), 6);
    expect(figures.films).toEqual({ hotShare: 0.475, wallShare: 0.05, hotExponent: 0.8, coldExponent: 0.8 });
    const { document: listed } = await answerOf(units.GET(request('units')));
    expect((listed.units as { tag: string }[]).map(({ tag }) => tag)).not.toContain('E-9');
  });

  it('gives what already follows of a half-filled unit beside what is missing', async () => {
    const plates = { count: 101, areaEach: { value: 0.5, unit: 'm2' } };
    const half = { plates, nozzles: { hotIn: 'bottom', coldIn: 'bottom' } };
    const { status, document } = await check({ site, unit: half });
    expect(status).toBe(200);
    const figures = document.figures as UnitFigures;
    // (101 − 2) · 0.5 m², 100 channels; both streams enter at the bottom: co-current, and the cooled one rises.
    expect(figures).toMatchObject({
      area: 49.5,
      channels: 100,
      direction: 'parallel',
      advice: ['cooled-stream-rises'],
    });
    expect(figures.hotDuty).toBeNull();
    expect(fieldsOf(document)).toEqual(
      expect.arrayContaining(['unit.tag', 'unit.arrangement', 'unit.design', 'unit.limits']),
    );
  });

  it('names what cannot be in a duty point before the rest is filled in', async () => {
    const { arrangement, hot, cold, design } = plainUnit('x');
    const reversed = { ...design, hotOut: { value: 60, unit: 'Cel' } };
    const fields = fieldsOf(
      (await check({ site, unit: { arrangement, hot, cold, design: reversed } })).document,
    );
    expect(fields).toEqual(expect.arrayContaining(['unit.tag', 'unit.design.hotOut']));
  });

  it('works the thermal figures out before tag, area and limits are filled in, but gives no U without an area', async () => {
    const { arrangement, hot, cold, design } = plainUnit('x');
    const figures = (await check({ site, unit: { arrangement, hot, cold, design } })).document
      .figures as UnitFigures;
    expect(figures.ntu).toBeCloseTo(1, 6);
    expect(figures.cleanU).toBeNull();
  });
});

describe('results over HTTP', () => {
  it('follow an import: daily figures, the unit, the fleet', async () => {
    await save({ site, unit: plainUnit('E-50') });
    await answerOf(imports.POST(post('imports?name=a.csv', readingsCsv('E-50', 24 * 20))));
    const days = await answerOf(daily.GET(request('units/E-50/daily'), at('E-50')));
    expect(dailyResultSchema.parse(days.document).days).toHaveLength(20);
    const unit = await answerOf(oneUnit.GET(request('units/E-50'), at('E-50')));
    expect(unitResultSchema.parse(unit.document).state).not.toBe('no-data');
    const all = (await answerOf(fleet.GET(request('fleet')))).document as unknown as { tag: string }[];
    expect(all.map(({ tag }) => tag)).toContain('E-50');
  });

  it('say that there is no such unit', async () => {
    expect((await answerOf(oneUnit.GET(request('units/none'), at('none')))).status).toBe(404);
    expect((await answerOf(daily.GET(request('units/none/daily'), at('none')))).status).toBe(404);
    const cleaning = postJson('units/none/cleanings', { at: '2026-01-02T00:00:00Z' });
    expect((await answerOf(cleanings.POST(cleaning, at('none')))).status).toBe(404);
  });
});

describe('recording a cleaning over HTTP', () => {
  const clean = (document: unknown) =>
    answerOf(cleanings.POST(postJson('units/E-50/cleanings', document), at('E-50')));

  it('begins a new cycle on its day', async () => {
    const { status, document } = await clean({
      at: '2026-01-11T00:00:00+00:00',
      method: 'Lance',
      duration: { value: 12, unit: 'h' },
    });
    expect(status).toBe(200);
    expect(unitResultSchema.parse(document).cycleStart).toBe('2026-01-11');
  });

  it('refuses a time without offset, one in the future and a negative cost', async () => {
    expect(fieldsOf((await clean({ at: '2026-01-11T00:00:00' })).document)).toEqual(['at']);
    expect(fieldsOf((await clean({ at: '2999-01-11T00:00:00Z' })).document)).toEqual(['at']);
    expect(fieldsOf((await clean({ at: '2026-01-11T00:00:00Z', cost: -1 })).document)).toEqual(['cost']);
  });
});

describe('registering a fleet file over HTTP', () => {
  it('takes all units, or none and names each field', async () => {
    const bad = plainUnit('F-2', { area: { value: -3, unit: 'm2' } });
    const refused = await answerOf(fleet.POST(postJson('fleet', { site, units: [plainUnit('F-1'), bad] })));
    expect(refused).toMatchObject({
      status: 422,
      document: { errors: [{ field: 'units[1].area.value', message: 'must be greater than 0' }] },
    });
    const taken = await answerOf(fleet.POST(postJson('fleet', plainFleet(['F-1', 'F-2']))));
    expect(taken.document).toMatchObject({ added: ['F-1', 'F-2'], updated: [], unchanged: [] });
  });
});
