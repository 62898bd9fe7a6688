import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { respond } from '@/app/api/respond';
import { tokenRequestOf } from '@/app/tokens/token-request-of';
import { TOKEN_SCOPES } from '@/lib/auth/rights';
import { SCOPE_WORDS } from '@/lib/auth/scope-words';
import { tokenDays } from '@/lib/contract/api/token-request';
import { makeToken, readTokens, withdrawToken } from '@/lib/work/tokens';
import { apiDatabase, request } from '../support/api';
import { runCleanby } from '../support/run-cleanby';
import type { TemporaryDatabase } from '../support/temporary-database';

const NOW = Date.parse('2026-05-04T08:00:00Z');
const DAY = 86_400_000;

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
  database.context.now = () => NOW;
});
afterAll(() => database.remove());

const make = (name: string, scopes: string[], days: number | null = 90) =>
  makeToken(database.context, { name, scopes, days });
const ask = (secret: string, path = 'units', method = 'GET') =>
  respond(request(path, { method, headers: { authorization: `Bearer ${secret}` } }), async () => ({
    fine: true,
  }));
const named = async (name: string) =>
  (await readTokens(database.context)).find((token) => token.name === name)!;
const everything = async () => {
  const { entities } = database.context.store;
  return JSON.stringify([await entities.apiToken.findMany(), await entities.changeRecord.findMany()]);
};

describe('a token', () => {
  it('is shown once and kept as its beginning and its hash', async () => {
    const { secret, token } = await make('bridge', ['look', 'import']);
    expect(secret).toMatch(/^cleanby_[\w-]{43}$/);
    expect(secret.startsWith(token.prefix)).toBe(true);
    expect(await everything()).not.toContain(secret.slice(token.prefix.length));
    expect(token).toMatchObject({ createdBy: 'command line', createdAt: NOW, expiresAt: NOW + 90 * DAY });
  });

  it('may do what its scopes say and nothing else', async () => {
    const { secret } = await make('reader', ['look']);
    expect((await ask(secret)).status).toBe(200);
    expect((await ask(secret, 'imports', 'POST')).status).toBe(403);
    expect((await ask(secret, 'changes')).status).toBe(403);
  });

  it('ends on its day, and not before', async () => {
    const { secret } = await make('short', ['look'], 1);
    database.context.now = () => NOW + DAY - 1;
    expect((await ask(secret)).status).toBe(200);
    database.context.now = () => NOW + DAY;
    const late = await ask(secret);
    expect([late.status, await late.json()]).toMatchObject([401, { detail: 'The token has expired' }]);
    database.context.now = () => NOW;
  });

  it('is refused from the moment it is revoked, and cannot be revoked twice', async () => {
    const { secret, token } = await make('gone', ['look']);
    await withdrawToken(database.context, token.id);
    expect((await ask(secret)).status).toBe(401);
    expect(await named('gone')).toMatchObject({ revokedAt: NOW, revokedBy: 'command line' });
    await expect(withdrawToken(database.context, token.id)).rejects.toMatchObject({ code: 'conflict' });
    await expect(withdrawToken(database.context, 9999)).rejects.toMatchObject({ code: 'not-found' });
  });

  it('has its last use written down, at most once a minute', async () => {
    const { secret } = await make('used', ['look'], null);
    const lastUse = async () => (await named('used')).lastUsedAt;
    await ask(secret);
    await expect.poll(lastUse).toBe(NOW);
    database.context.now = () => NOW + 59_000;
    await ask(secret);
    database.context.now = () => NOW + 60_000;
    await ask(secret);
    await expect.poll(lastUse).toBe(NOW + 60_000);
    database.context.now = () => NOW;
  });

  it('leaves a record of who made and who revoked it', async () => {
    const { token } = await make('recorded', ['look', 'clean'], null);
    await withdrawToken(database.context, token.id);
    const records = await database.context.store.entities.changeRecord.findMany({
      where: { subject: 'token', subjectName: 'recorded' },
    });
    expect(records.map(({ action, actorName }) => [action, actorName])).toEqual([
      ['added', 'command line'],
      ['withdrawn', 'command line'],
    ]);
    expect(JSON.parse(records[0]!.after!)).toEqual({
      prefix: token.prefix,
      scopes: ['look', 'clean'],
      expiresAt: null,
    });
  });

  it('is not made without a name, with a scope that is none, or beside one of the same name', async () => {
    await expect(make(' ', ['look'])).rejects.toMatchObject({ faults: [{ field: 'name' }] });
    await expect(make('none', [])).rejects.toMatchObject({ faults: [{ field: 'scopes' }] });
    for (const scope of ['people', 'tokens', 'nothing']) {
      await expect(make('too much', ['look', scope])).rejects.toMatchObject({
        faults: [{ field: 'scopes' }],
      });
    }
    await expect(make('bridge', ['look'])).rejects.toMatchObject({ code: 'conflict' });
    await expect(make('long', ['look'], 4000)).rejects.toMatchObject({ faults: [{ field: 'days' }] });
  });

  it('has every scope explained', () => {
    expect(Object.keys(SCOPE_WORDS).sort()).toEqual([...TOKEN_SCOPES].sort());
  });

  it.each([
    ['90d', 90],
    ['12w', 84],
    ['6mo', 180],
    ['2y', 730],
    ['30', 30],
    ['never', null],
    ['9x', undefined],
    ['', undefined],
    ['-1d', undefined],
  ])('"%s" holds %s days', (text, days) => {
    expect(tokenDays(text)).toBe(days);
  });
});

describe('the form of a token', () => {
  const read = (expires: string | null) => {
    const form = new FormData();
    form.set('name', 'bridge');
    form.append('scopes', 'look');
    if (expires !== null) form.set('expires', expires);
    return tokenRequestOf(form);
  };

  it('is read as it was filled in', () => {
    expect(read('12w')).toEqual({ name: 'bridge', scopes: ['look'], days: 84 });
    expect(read('never').days).toBeNull();
  });

  it.each(['-5', 'soon', '', '1e9', null])('is refused where it holds "%s"', (expires) => {
    const refused = { code: 'invalid-input', faults: [{ field: 'expires' }] };
    expect(() => read(expires)).toThrow(expect.objectContaining({ code: refused.code }));
    try {
      read(expires);
    } catch (error) {
      expect(error).toMatchObject(refused);
    }
  });
});

describe('cleanby token', () => {
  it('makes, lists and revokes, and prints the secret alone on stdout', async () => {
    const run = (...args: string[]) => runCleanby(['token', ...args], database.url);
    const added = await run('add', 'gateway', '--scopes', 'look, import', '--expires', 'never');
    expect([added.code, added.stdout]).toEqual([0, expect.stringMatching(/^cleanby_[\w-]{43}\n$/)]);
    expect((await ask(added.stdout.trim())).status).toBe(200);
    const listed = await run('list', '--json');
    expect(listed.stdout).not.toContain(added.stdout.trim());
    expect(JSON.parse(listed.stdout).tokens[0]).toMatchObject({
      name: 'gateway',
      state: 'holds',
      expiresAt: null,
    });
    expect((await run('revoke', 'gateway')).code).toBe(0);
    expect((await ask(added.stdout.trim())).status).toBe(401);
    expect(await run('revoke', 'gateway')).toMatchObject({
      code: 1,
      stderr: expect.stringContaining('no token "gateway"'),
    });
    expect((await run('add', 'x', '--scopes', 'look', '--expires', 'soon')).code).toBe(2);
  });
});
