import { formatAge, formatInstant } from '../format/time';

/** Somebody with an account, as it is kept. */
type Person = {
  id: string;
  name: string;
  email: string;
  role: string;
  revision: number;
  disabledAt: number | null;
  /** Until when no password is looked at [ms]; Infinity: until somebody ends it. */
  locked: number | null;
  lastSeenAt: number | null;
};

type Invitation = {
  id: number;
  email: string;
  name: string | null;
  role: string;
  invitedBy: string;
  expiresAt: number;
};

export type PersonRow = {
  id: string;
  revision: number;
  name: string;
  email: string;
  role: string;
  isSelf: boolean;
  /** Nobody else could let others in: role and access stay as they are. */
  isOnlyAdministrator: boolean;
  isDisabled: boolean;
  isLocked: boolean;
  state: string;
  lastSeen: string;
};

export type InvitationRow = {
  id: number;
  email: string;
  name: string;
  role: string;
  from: string;
  holds: string;
};

export type PeopleView = { summary: string; people: PersonRow[]; invitations: InvitationRow[] };

export type PeopleRecords = { people: Person[]; invitations: Invitation[]; at: number; seenAt: number };

/** The people page: who has an account, as what, and who is asked to make one. */
export function peopleView(
  { people, invitations, at, seenAt }: PeopleRecords,
  self: string | null,
): PeopleView {
  return {
    summary: summary(people, invitations.filter(({ expiresAt }) => expiresAt > at).length),
    people: people.map((person) => ({
      id: person.id,
      revision: person.revision,
      name: person.name,
      email: person.email,
      role: person.role,
      isSelf: person.id === self,
      isOnlyAdministrator: isInCharge(person) && people.filter(isInCharge).length === 1,
      isDisabled: person.disabledAt !== null,
      isLocked: person.locked !== null,
      state: stateWords(person),
      lastSeen: person.lastSeenAt === null ? 'not signed in' : formatAge(seenAt - person.lastSeenAt),
    })),
    invitations: invitations.map(({ id, email, name, role, invitedBy, expiresAt }) => ({
      id,
      email,
      name: name ?? '',
      role,
      from: invitedBy,
      holds: expiresAt > at ? `ends ${formatAge(at - expiresAt)}` : 'out of date',
    })),
  };
}

function isInCharge({ role, disabledAt }: Person): boolean {
  return role === 'administrator' && disabledAt === null;
}

function summary(people: Person[], invited: number): string {
  const accounts = people.length === 1 ? '1 account' : `${people.length} accounts`;
  const waiting = invited === 1 ? '1 invitation open' : `${invited} invitations open`;
  return invited === 0 ? accounts : `${accounts}, ${waiting}`;
}

function stateWords({ disabledAt, locked }: Person): string {
  if (disabledAt !== null) return `disabled since ${formatInstant(disabledAt, 'UTC')} UTC`;
  if (locked === null) return 'enabled';
  if (locked === Number.POSITIVE_INFINITY) return 'locked after wrong passwords';
  return `waits until ${formatInstant(locked, 'UTC')} UTC after wrong passwords`;
}
