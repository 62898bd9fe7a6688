import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { respond } from '@/app/api/respond';
import { AppError } from '@/lib/contract/app-error';
import { answerOf, apiDatabase, request } from '../support/api';
import type { TemporaryDatabase } from '../support/temporary-database';

const ok = async () => ({ fine: true });

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
});
afterAll(() => database.remove());
afterEach(() => {
  delete process.env.CLEANBY_HOSTS;
});

describe('from where the API may be called', () => {
  it.each(['localhost', 'localhost:4000', '127.0.0.1:4101', '[::1]:4000', 'LOCALHOST:1'])(
    'answers under the name %s of this machine',
    async (host) => {
      expect((await respond(request('units', { headers: { host } }), ok)).status).toBe(200);
    },
  );

  it.each([
    'rebound.example',
    'rebound.example:4000',
    '10.0.0.7:4000',
    'localhost.rebound.example',
    '127.0.0.1.example',
    'a b',
    '',
  ])('refuses the host name "%s", to which a foreign page may have been rebound', async (host) => {
    const { status, type, document } = await answerOf(respond(request('units', { headers: { host } }), ok));
    expect(status).toBe(403);
    expect(type).toBe('application/problem+json');
    expect(document).toMatchObject({
      type: 'urn:cleanby:problem:not-allowed',
      status: 403,
      errors: [{ field: 'Host' }],
    });
  });

  it('answers under a name that CLEANBY_HOSTS lists, and under no other', async () => {
    process.env.CLEANBY_HOSTS = 'plant-server, 10.0.0.7:4000';
    const statusUnder = async (host: string) =>
      (await respond(request('units', { headers: { host } }), ok)).status;
    expect(await statusUnder('plant-server:4000')).toBe(200);
    expect(await statusUnder('10.0.0.7:4000')).toBe(200);
    expect(await statusUnder('10.0.0.7:5000')).toBe(403);
    expect(await statusUnder('other-server')).toBe(403);
  });

  it.each([
    [{ 'sec-fetch-site': 'cross-site' }, 403],
    [{ 'sec-fetch-site': 'same-site' }, 403],
    [{ 'sec-fetch-site': 'same-origin', origin: 'http://localhost:4000' }, 200],
    [{ 'sec-fetch-site': 'none' }, 200],
    [{ origin: 'https://foreign.example' }, 403],
    [{ origin: 'http://localhost:5000' }, 403],
    [{ origin: 'null' }, 403],
    [{}, 200],
  ])('takes a request with %j for what it is: %i', async (headers: Record<string, string>, expected) => {
    expect((await respond(request('evaluate', { method: 'POST', headers }), ok)).status).toBe(expected);
  });
});

describe('problem documents', () => {
  it('map a user error by its code and name each field', async () => {
    const fault = { field: 'unit.design.hotIn', message: 'must be above coldIn' };
    const refused = respond(request('units'), async () => {
      throw new AppError('invalid-input', 'The unit was not saved', [fault]);
    });
    expect(await answerOf(refused)).toEqual({
      status: 422,
      type: 'application/problem+json',
      document: {
        type: 'urn:cleanby:problem:invalid-input',
        title: 'The input does not hold what is needed',
        status: 422,
        detail: 'The unit was not saved',
        instance: expect.stringMatching(/^urn:uuid:[0-9a-f-]{36}$/),
        errors: [fault],
      },
    });
  });

  it('tell nothing of the inside when the fault is ours', async () => {
    const failed = respond(request('units'), async () => {
      throw new Error('SELECT secret FROM /home/somebody/cleanby.db');
    });
    const { status, document } = await answerOf(failed);
    expect(status).toBe(500);
    expect(JSON.stringify(document)).not.toMatch(/secret|somebody|Error|\.ts/);
  });
});
