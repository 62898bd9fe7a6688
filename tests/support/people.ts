import { hashPassword } from '@/lib/auth/password-hash';
import type { Role } from '@/lib/auth/rights';
import { personVisitor } from '@/lib/auth/visitor';
import { AppError } from '@/lib/contract/app-error';
import { actingAs, type Context } from '@/lib/work/context';
import { addAccount } from '@/lib/work/people/add-account';

/** A password that holds to the rules, for accounts of tests. */
export const PASSWORD = 'seven slow kettles of brine';

let hash: Promise<string> | null = null;

/** What a browser on this machine sends; `cookies` are Set-Cookie lines it was given. */
export function browserHeaders(cookies: string[] = [], more: Record<string, string> = {}): Headers {
  const headers = new Headers({ host: '127.0.0.1:4000', 'user-agent': 'Test browser', ...more });
  const pairs = cookies.map((line) => line.split(';')[0]!).filter((pair) => !pair.endsWith('='));
  if (pairs.length > 0) headers.set('cookie', pairs.join('; '));
  return headers;
}

/** An account with the password of tests. */
export async function addPerson(context: Context, role: Role, name: string = role) {
  // Hashed once: it takes a good part of a second.
  hash ??= hashPassword(PASSWORD);
  return addAccount(context, { name, email: emailOf(name), role, passwordHash: await hash });
}

export function emailOf(name: string): string {
  return `${name.toLowerCase().replaceAll(' ', '.')}@plant.example`;
}

/** A context in which a person is at work. */
export function asPerson(context: Context, person: { id: string; name: string; role: string }): Context {
  return actingAs(context, personVisitor({ ...person, role: person.role as Role }).actor);
}

/** Code and words of a refusal. */
export async function refusalOf(work: Promise<unknown>): Promise<{ code: string; text: string }> {
  try {
    await work;
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    return {
      code: error.code,
      text: [error.message, ...error.faults.map(({ message }) => message)].join(' '),
    };
  }
  throw new Error('it was not refused');
}

/** Changes of accounts and invitations in the record: who, of what, what. */
export async function recordedChanges({ store }: Context) {
  const rows = await store.entities.changeRecord.findMany({ orderBy: { id: 'asc' } });
  return rows.map(({ actorName, subject, subjectName, action, before, after, note }) => ({
    actor: actorName,
    what: `${subject} ${subjectName} ${action}`,
    before: before === null ? null : (JSON.parse(before) as unknown),
    after: after === null ? null : (JSON.parse(after) as unknown),
    note,
  }));
}
