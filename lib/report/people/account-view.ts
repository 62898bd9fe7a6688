import { formatAge, formatInstant } from '../format/time';
import { deviceWords } from './device-words';

type Session = {
  id: string;
  createdAt: number;
  lastUsedAt: number;
  expiresAt: number;
  address: string;
  userAgent: string;
};

type Records = {
  person: { name: string; email: string; role: string };
  hasPassword: boolean;
  sessions: Session[];
  thisSession: string | null;
};

export type SessionRow = {
  id: string;
  isThis: boolean;
  device: string;
  address: string;
  since: string;
  lastUsed: string;
  ends: string;
};

export type AccountView = {
  name: string;
  email: string;
  role: string;
  hasPassword: boolean;
  /** Whether roles are this one's to give. */
  givesRoles: boolean;
  sessions: SessionRow[];
  /** Session of this browser, and whether there are others to end. */
  thisSession: string | null;
  hasOthers: boolean;
  /** Whether the address of any session is known. */
  hasAddresses: boolean;
};

/** One's own account, and where one is signed in: this browser first. */
export function accountView(
  { person, hasPassword, sessions, thisSession }: Records,
  now: number,
): AccountView {
  const rows = sessions.map((session) => ({
    id: session.id,
    isThis: session.id === thisSession,
    device: deviceWords(session.userAgent),
    address: hasAddress(session) ? session.address : 'not known',
    since: `${formatInstant(session.createdAt, 'UTC')} UTC`,
    lastUsed: formatAge(now - session.lastUsedAt),
    ends: `${formatInstant(session.expiresAt, 'UTC')} UTC`,
  }));
  const { name, email, role } = person;
  return {
    ...{ name, email, role, hasPassword, thisSession },
    sessions: rows.sort((a, b) => Number(b.isThis) - Number(a.isThis)),
    hasOthers: rows.some(({ isThis }) => !isThis),
    hasAddresses: sessions.some(hasAddress),
    givesRoles: role === 'administrator',
  };
}

function hasAddress({ address }: Session): boolean {
  return address !== 'direct';
}
