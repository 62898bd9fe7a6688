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
  sessions: SessionRow[];
  /** Session of this browser, and whether there are others to end. */
  thisSession: string | null;
  hasOthers: boolean;
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
    address: session.address === 'direct' ? 'not known' : session.address,
    since: `${formatInstant(session.createdAt, 'UTC')} UTC`,
    lastUsed: formatAge(now - session.lastUsedAt),
    ends: `${formatInstant(session.expiresAt, 'UTC')} UTC`,
  }));
  const { name, email, role } = person;
  return {
    ...{ name, email, role, hasPassword, thisSession },
    sessions: rows.sort((a, b) => Number(b.isThis) - Number(a.isThis)),
    hasOthers: rows.some(({ isThis }) => !isThis),
  };
}
