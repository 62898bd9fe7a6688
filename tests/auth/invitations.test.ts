import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { identify } from '@/lib/auth/identify';
import { INVITATION_LIFE_MS } from '@/lib/auth/invitation-secret';
import type { Context } from '@/lib/work/context';
import { acceptInvitation, readInvitation } from '@/lib/work/people/accept-invitation';
import { invite, withdrawInvitation } from '@/lib/work/people/invite';
import { readPeople } from '@/lib/work/people/read-people';
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
let inviting: Context;
let now = Date.parse('2026-11-02T06:00:00Z');

beforeAll(async () => {
  database = await temporaryDatabase();
  const administrator = await addPerson(database.context, 'administrator', 'The Administrator');
  inviting = asPerson({ ...database.context, now: () => now }, administrator);
});
afterAll(() => database.remove());

function request(name: string) {
  return { name, email: emailOf(name), role: 'planner' as const };
}

function accept(secret: string, name: string, password = PASSWORD) {
  return acceptInvitation(inviting, { secret, name, password }, browserHeaders());
}

describe('an invitation', () => {
  it('lets the invited person choose name and password, and in at once', async () => {
    const { secret } = await invite(inviting, request('New Planner'));
    const { email, role, invitedBy } = await readInvitation(inviting, secret);
    expect({ email, role, invitedBy }).toEqual({
      email: emailOf('New Planner'),
      role: 'planner',
      invitedBy: 'The Administrator',
    });
    const cookies = await accept(secret, 'Another Spelling');
    const visitor = await identify(database.context.store, browserHeaders(cookies), now);
    expect(visitor?.actor.name).toBe('Another Spelling');
    expect(visitor?.role).toBe('planner');
    const changes = (await recordedChanges(inviting)).filter(({ what }) => what.includes(email));
    expect(changes.map(({ actor, what }) => `${actor}: ${what}`)).toEqual([
      `The Administrator: invitation ${email} added`,
      `invitation by The Administrator: invitation ${email} accepted`,
      `invitation by The Administrator: account ${email} added`,
      `Another Spelling: account ${email} signed-in`,
    ]);
  });

  it('holds once', async () => {
    const { secret } = await invite(inviting, request('Only Once'));
    await accept(secret, 'Only Once');
    expect((await refusalOf(accept(secret, 'Only Once'))).code).toBe('not-found');
    expect((await refusalOf(readInvitation(inviting, secret))).code).toBe('not-found');
  });

  it('taken up twice at the same moment makes one account', async () => {
    const { secret } = await invite(inviting, request('Two Tabs'));
    const outcomes = await Promise.allSettled([accept(secret, 'Tab One'), accept(secret, 'Tab Two')]);
    expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    const people = await database.context.store.entities.user.count({
      where: { email: emailOf('Two Tabs') },
    });
    expect(people).toBe(1);
  });

  it('holds for seven days', async () => {
    const { secret } = await invite(inviting, request('Seven Days'));
    now += INVITATION_LIFE_MS - 1;
    expect((await readInvitation(inviting, secret)).role).toBe('planner');
    now += 1;
    expect((await refusalOf(accept(secret, 'Seven Days'))).text).toContain('older than 7 days');
  });

  it('stops holding when it is withdrawn, and when the same address is invited anew', async () => {
    const first = await invite(inviting, request('Third Time'));
    const second = await invite(inviting, { ...request('Third Time'), role: 'viewer' });
    expect((await refusalOf(readInvitation(inviting, first.secret))).code).toBe('not-found');
    await withdrawInvitation(inviting, second.invitation.id);
    expect((await refusalOf(accept(second.secret, 'Third Time'))).code).toBe('not-found');
    expect((await refusalOf(withdrawInvitation(inviting, second.invitation.id))).code).toBe('not-found');
    const { invitations } = await readPeople(inviting);
    expect(invitations.filter(({ email }) => email === emailOf('Third Time'))).toEqual([]);
  });

  it('is not made for an address that has an account', async () => {
    const { text } = await refusalOf(invite(inviting, request('The Administrator')));
    expect(text).toContain('has an account already');
  });

  it('asks for a password that holds to the rules, and stays open until one does', async () => {
    const { secret } = await invite(inviting, request('Weak Start'));
    expect((await refusalOf(accept(secret, 'Weak Start', 'too short'))).code).toBe('invalid-input');
    expect((await refusalOf(accept(secret, 'Weak Start', 'weak.start@plant'))).text).toContain('your name');
    await accept(secret, 'Weak Start');
  });

  it('keeps its secret and the password out of the database, but for their hashes', async () => {
    const { secret } = await invite(inviting, request('Well Kept'));
    const { entities } = database.context.store;
    const kept = JSON.stringify([
      await entities.invitation.findMany(),
      await entities.changeRecord.findMany(),
      await entities.session.findMany(),
    ]);
    expect(kept).not.toContain(secret);
    expect(kept).not.toContain(PASSWORD);
  });

  it('of somebody else’s making opens nothing', async () => {
    for (const secret of ['', 'x', 'A'.repeat(43)]) {
      expect((await refusalOf(readInvitation(inviting, secret))).code).toBe('not-found');
    }
  });
});
