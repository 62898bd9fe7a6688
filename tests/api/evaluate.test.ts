import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { POST } from '@/app/api/v1/evaluate/route';
import { evaluatedReadingSchema } from '@/lib/contract/readings';
import { evaluate } from '@/lib/work/evaluate';
import { answerOf, apiDatabase, post, postJson } from '../support/api';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainUnit } from '../support/units';

const celsius = (value: number) => ({ value, unit: 'Cel' });
const flow = { value: 10, unit: 'kg/s' };
const reading = {
  time: '2026-05-04T08:00:00Z',
  hotIn: celsius(50),
  hotOut: celsius(40),
  coldIn: celsius(30),
  coldOut: celsius(40),
  hotFlow: flow,
  coldFlow: flow,
};

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
});
afterAll(() => database.remove());

describe('evaluating over HTTP', () => {
  it('answers as `cleanby evaluate` does', async () => {
    const request = { unit: plainUnit('E-1'), readings: [reading, { ...reading, hotIn: null }] };
    const { status, document } = await answerOf(POST(postJson('evaluate', request)));
    expect(status).toBe(200);
    expect(evaluatedReadingSchema.strict().array().parse(document)).toEqual(evaluate(request));
  });

  it('names each field it refuses, in the unit and in the readings', async () => {
    const unit = plainUnit('E-1', { area: { value: -1, unit: 'm2' } });
    const readings = [{ ...reading, hotFlow: celsius(1) }];
    const { status, type, document } = await answerOf(POST(postJson('evaluate', { unit, readings })));
    expect([status, type]).toEqual([422, 'application/problem+json']);
    const fields = (document.errors as { field: string }[]).map(({ field }) => field);
    expect(fields).toEqual(['unit.area.value', 'readings[0].hotFlow.unit']);
  });

  it('refuses misspelt fields of the unit, of a reading and of the request, and says what was meant', async () => {
    const { limits, ...unit } = plainUnit('E-1');
    const { hotIn, ...rest } = reading;
    const readings = [reading, { ...rest, hotin: hotIn }];
    const body = { unit: { ...unit, limits, limts: limits }, readings, reading: [] };
    const { status, document } = await answerOf(POST(postJson('evaluate', body)));
    expect(status).toBe(422);
    expect(document.errors).toEqual([
      { field: 'unit.limts', message: 'is not known here; did you mean "limits"?' },
      { field: 'readings[1].hotin', message: 'is not known here; did you mean "hotIn"?' },
      { field: 'reading', message: 'is not known here; did you mean "readings"?' },
    ]);
  });

  it('refuses temperature thresholds the wrong way round', async () => {
    const checks = { minimumTemperature: celsius(90), maximumTemperature: celsius(10) };
    const unit = plainUnit('E-1', { checks });
    const { status, document } = await answerOf(POST(postJson('evaluate', { unit, readings: [reading] })));
    expect(status).toBe(422);
    expect((document.errors as { field: string }[]).map(({ field }) => field)).toEqual([
      'unit.checks.minimumTemperature',
    ]);
  });

  it('refuses what is no JSON', async () => {
    expect((await answerOf(POST(post('evaluate', '{ torn')))).status).toBe(422);
  });
});
