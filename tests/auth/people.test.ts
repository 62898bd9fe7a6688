import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { identify } from '@/lib/auth/identify';
import type { Context } from '@/lib/work/context';
import { changePerson } from '@/lib/work/people/change-person';
import { changeOwnPassword, endOtherSessions, endOwnSession, renameOwn } from '@/lib/work/people/own-account';
import { readAccount } from '@/lib/work/people/read-account';
import { readPeople } from '@/lib/work/people/read-people';
import { signIn } from '@/lib/work/people/sign-in';
import {
  addPerson,
  asPerson,
  browserHeaders,
  emailOf,
  PASSWORD,
  recordedChanges,
  refusalOf,
} from '../support/people';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';

vi.hoisted(() => {
  process.env.CLEANBY_LOG_LEVEL = 'silent';
});
vi.mock('@/lib/auth/password-hash', () => import('../support/plain-hash'));

let database: TemporaryDatabase;
let administrator: Context;
let other: Context;

beforeAll(async () => {
  database = await temporaryDatabase();
  administrator = asPerson(database.context, await addPerson(database.context, 'administrator', 'Admin One'));
  other = asPerson(database.context, await addPerson(database.context, 'administrator', 'Admin Two'));
});
afterAll(() => database.remove());

function enter(name: string, password = PASSWORD): Promise<string[]> {
  return signIn(database.context, { email: emailOf(name), password }, browserHeaders());
}

async function whoIs(cookies: string[]) {
  return identify(database.context.store, browserHeaders(cookies), Date.now());
}

/** An account as it stands now: number and version. */
async function seen(name: string): Promise<{ id: string; revision: number }> {
  const { people } = await readPeople(database.context);
  const { id, revision } = people.find(({ email }) => email === emailOf(name))!;
  return { id, revision };
}

describe('changing an account', () => {
  it('to another role ends its sessions, and the next one has the new role', async () => {
    await addPerson(database.context, 'viewer', 'Rising Star');
    const cookies = await enter('Rising Star');
    const said = await changePerson(administrator, {
      ...(await seen('Rising Star')),
      what: 'role',
      role: 'engineer',
    });
    expect(said).toBe('Rising Star is now engineer.');
    expect(await whoIs(cookies)).toBeNull();
    expect((await whoIs(await enter('Rising Star')))?.rights.has('import')).toBe(true);
    expect(await recordedChanges(administrator)).toContainEqual({
      actor: 'Admin One',
      what: `account ${emailOf('Rising Star')} changed`,
      before: { role: 'viewer' },
      after: { role: 'engineer' },
      note: null,
    });
  });

  it('to disabled ends its sessions and lets nobody in until it is enabled', async () => {
    await addPerson(database.context, 'viewer', 'On Leave');
    const cookies = await enter('On Leave');
    await changePerson(administrator, { ...(await seen('On Leave')), what: 'disable' });
    expect(await whoIs(cookies)).toBeNull();
    expect((await refusalOf(enter('On Leave'))).code).toBe('not-allowed');
    await changePerson(administrator, { ...(await seen('On Leave')), what: 'enable' });
    expect((await whoIs(await enter('On Leave')))?.actor.name).toBe('On Leave');
  });

  it('counts for a session that another process has made meanwhile', async () => {
    await addPerson(database.context, 'viewer', 'Late Entry');
    const cookies = await enter('Late Entry');
    const { id } = await seen('Late Entry');
    // As if the session had been opened between the change and the end of sessions: only the account says so.
    await database.context.store.entities.user.update({ where: { id }, data: { disabledAt: new Date() } });
    expect(await whoIs(cookies)).toBeNull();
    await database.context.store.entities.user.update({
      where: { id },
      data: { disabledAt: null, role: 'manager' },
    });
    expect((await whoIs(cookies))?.role).toBe('manager');
  });

  it('seen before somebody else changed it is refused with what that one did', async () => {
    await addPerson(database.context, 'viewer', 'Tug Of War');
    const before = await seen('Tug Of War');
    await changePerson(other, { ...before, what: 'role', role: 'manager' });
    const late = await refusalOf(changePerson(administrator, { ...before, what: 'role', role: 'planner' }));
    expect(late.code).toBe('conflict');
    expect(late.text).toContain('Admin Two has changed Tug Of War in the meantime: now manager, enabled');
    const now = await seen('Tug Of War');
    const both = await Promise.allSettled(
      (['planner', 'engineer'] as const).map((role) =>
        changePerson(administrator, { ...now, what: 'role', role }),
      ),
    );
    expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
  });

  it('is not overtaken by its owner signing in or taking another name', async () => {
    const person = await addPerson(database.context, 'viewer', 'Busy Owner');
    const before = await seen('Busy Owner');
    await enter('Busy Owner');
    await renameOwn(asPerson(database.context, person), 'Busy Owner-Smith');
    await changePerson(administrator, { ...before, what: 'role', role: 'planner' });
  });

  it('never leaves the server without an administrator who can sign in', async () => {
    await changePerson(administrator, { ...(await seen('Admin Two')), what: 'disable' });
    for (const change of [{ what: 'role', role: 'viewer' }, { what: 'disable' }] as const) {
      const refused = await refusalOf(
        changePerson(administrator, { ...(await seen('Admin One')), ...change }),
      );
      expect(refused.text).toContain('only administrator');
    }
    await changePerson(administrator, { ...(await seen('Admin Two')), what: 'enable' });
    const both = await Promise.allSettled(
      ['Admin One', 'Admin Two'].map(async (name) =>
        changePerson(administrator, { ...(await seen(name)), what: 'role', role: 'viewer' }),
      ),
    );
    expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
  });
});

describe('one’s own account', () => {
  it('changes its password by the one before, and every other browser is signed out', async () => {
    const person = await addPerson(database.context, 'viewer', 'Key Holder');
    const context = asPerson(database.context, person);
    const [here, elsewhere] = [await enter('Key Holder'), await enter('Key Holder')];
    const change = (current: string, password: string) =>
      changeOwnPassword(context, { current, password }, browserHeaders(here));
    expect((await refusalOf(change('not the password', 'eight slow kettles of brine'))).text).toContain(
      'not your password',
    );
    expect((await refusalOf(change(PASSWORD, 'short'))).text).toContain('at least 15');
    const cookies = await change(PASSWORD, 'eight slow kettles of brine');
    expect(await whoIs(here)).toBeNull();
    expect(await whoIs(elsewhere)).toBeNull();
    expect((await whoIs(cookies))?.actor.name).toBe('Key Holder');
    expect((await refusalOf(enter('Key Holder'))).code).toBe('not-signed-in');
    await enter('Key Holder', 'eight slow kettles of brine');
    const record = JSON.stringify(await recordedChanges(context));
    expect(record).toContain('"note":"password"');
    expect(record).not.toContain('kettles');
  });

  it('does not let somebody at an open browser guess the password', async () => {
    const person = await addPerson(database.context, 'viewer', 'Open Desk');
    const context = asPerson(database.context, person);
    const guess = () =>
      changeOwnPassword(
        context,
        { current: 'a guess', password: 'eight slow kettles of brine' },
        browserHeaders(),
      );
    for (let i = 0; i < 10; i++) await refusalOf(guess());
    const right = { current: PASSWORD, password: 'eight slow kettles of brine' };
    expect((await refusalOf(changeOwnPassword(context, right, browserHeaders()))).text).toContain(
      'has to wait',
    );
  });

  it('lists where it is signed in, and ends one or all others', async () => {
    const person = await addPerson(database.context, 'viewer', 'Three Screens');
    const stranger = asPerson(database.context, await addPerson(database.context, 'viewer', 'A Stranger'));
    const context = asPerson(database.context, person);
    const [one, two, three] = [
      await enter('Three Screens'),
      await enter('Three Screens'),
      await enter('Three Screens'),
    ];
    const { sessions, thisSession } = await readAccount(context, browserHeaders(one));
    expect(sessions).toHaveLength(3);
    expect(sessions[0]).toMatchObject({ userAgent: 'Test browser', address: 'direct' });
    const ending = sessions.find(({ id }) => id !== thisSession)!.id;
    await endOwnSession(stranger, ending);
    expect((await readAccount(context, browserHeaders(one))).sessions).toHaveLength(3);
    await endOwnSession(context, ending);
    expect((await readAccount(context, browserHeaders(one))).sessions).toHaveLength(2);
    await endOtherSessions(context, browserHeaders(one));
    expect((await whoIs(one))?.actor.name).toBe('Three Screens');
    expect([await whoIs(two), await whoIs(three)]).toEqual([null, null]);
  });
});
