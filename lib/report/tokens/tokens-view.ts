import { formatAge, formatDay } from '../format/time';
import { type TokenRecord, tokenState } from './token-rows';

const DAY_MS = 86_400_000;
/** From so long before its end on a token is shown as one to renew [ms]. */
const ENDS_SOON_MS = 14 * DAY_MS;

const EXPIRIES = [
  { value: '30', label: '30 days' },
  { value: '90', label: '90 days' },
  { value: '180', label: '180 days' },
  { value: '365', label: '1 year' },
  { value: 'never', label: 'No end: until it is revoked' },
];

type TokenLine = {
  id: number;
  name: string;
  beginning: string;
  scopes: string[];
  made: string;
  ends: string;
  used: string;
  /** Why it is not taken any more; null while it is. */
  over: string | null;
  endsSoon: boolean;
};

export type TokensView = {
  scopes: { value: string; label: string }[];
  expiries: { value: string; label: string }[];
  usualExpiry: string;
  holding: TokenLine[];
  over: TokenLine[];
};

type Facts = { tokens: TokenRecord[]; scopeWords: Record<string, string>; usualDays: number; now: number };

/** The page of tokens: what can be chosen, those that hold and those that did. */
export function tokensView({ tokens, scopeWords, usualDays, now }: Facts): TokensView {
  const lines = tokens.map((token) => line(token, now));
  return {
    scopes: Object.entries(scopeWords).map(([value, label]) => ({ value, label })),
    expiries: EXPIRIES,
    usualExpiry: String(usualDays),
    holding: lines.filter(({ over }) => over === null),
    over: lines.filter(({ over }) => over !== null),
  };
}

function line(token: TokenRecord, now: number): TokenLine {
  const { id, name, prefix, scopes, expiresAt, lastUsedAt } = token;
  return {
    id,
    name,
    beginning: `${prefix}…`,
    scopes,
    made: `${dayOf(token.createdAt)} by ${token.createdBy}`,
    ends: expiresAt === null ? 'no end' : dayOf(expiresAt),
    used: lastUsedAt === null ? 'never' : formatAge(now - lastUsedAt),
    over: whyOver(token, now),
    endsSoon: expiresAt !== null && expiresAt - now < ENDS_SOON_MS,
  };
}

function whyOver(token: TokenRecord, now: number): string | null {
  const state = tokenState(token, now);
  if (state === 'holds') return null;
  if (state === 'expired') return `expired ${dayOf(token.expiresAt!)}`;
  return `revoked ${dayOf(token.revokedAt!)} by ${token.revokedBy ?? 'somebody'}`;
}

/** Days of tokens are days of UTC: they belong to no site. */
function dayOf(at: number): string {
  return formatDay(Math.floor(at / DAY_MS));
}
