import type { Actor } from '@/lib/contract/actor';
import { AppError } from '@/lib/contract/app-error';
import { type Right, type Role, rightsOf } from './rights';
import type { Rule } from './rules';

/** Whoever asks: who it is, and what that one may do. A token has no role but the rights it was given. */
export type Visitor = { actor: Actor; role: Role | null; rights: ReadonlySet<Right> };

export function personVisitor(person: { id: string; name: string; role: Role }): Visitor {
  const { id, name, role } = person;
  return { actor: { kind: 'person', id, name }, role, rights: rightsOf(role) };
}

/** Whether the rule lets a visitor in; null is somebody who is not signed in. */
export function mayEnter(rule: Rule, visitor: Visitor | null): boolean {
  if (rule === 'anyone') return true;
  if (visitor === null) return false;
  return rule === 'signed-in' ? visitor.actor.kind === 'person' : visitor.rights.has(rule);
}

/**
 * Lets in or says why not.
 *
 * @throws AppError 'not-signed-in' or 'not-allowed'
 */
export function admit(rule: Rule, visitor: Visitor | null): void {
  if (mayEnter(rule, visitor)) return;
  if (visitor === null) {
    throw new AppError('not-signed-in', 'Sign in, or send a token', [
      { field: 'Authorization', message: 'sign in on the page, or send "Authorization: Bearer TOKEN"' },
    ]);
  }
  throw new AppError('not-allowed', `${visitor.actor.name} may not do this`, [
    {
      field: 'Authorization',
      message: `it needs the right "${rule}"; an administrator gives roles and tokens`,
    },
  ]);
}
