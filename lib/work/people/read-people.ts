import { lockedUntil } from '@/lib/auth/lock-out';
import { listOpenInvitations, type StoredInvitation } from '@/lib/store/entities/invitations';
import { listPeople, type StoredPerson } from '@/lib/store/entities/people';
import { lastUses } from '@/lib/store/entities/sessions';
import type { Context } from '../context';

/** Somebody with an account as the people page shows it. */
export type PersonRecord = StoredPerson & { lastSeenAt: number | null; locked: number | null };

export type PeopleRecords = {
  people: PersonRecord[];
  invitations: StoredInvitation[];
  /** Now, and now by the clock of the machine, which sessions go by [ms]. */
  at: number;
  seenAt: number;
};

/** Everybody with an account, when each was last seen, and who is still asked to make one. */
export async function readPeople({ store, now }: Context): Promise<PeopleRecords> {
  const at = now();
  const [people, invitations, uses] = await Promise.all([
    listPeople(store.entities),
    listOpenInvitations(store.entities),
    lastUses(store.entities),
  ]);
  const records = people.map((person) => ({
    ...person,
    lastSeenAt: uses.get(person.id) ?? null,
    locked: lockedUntil(person, at),
  }));
  return { people: records, invitations, at, seenAt: Date.now() };
}
