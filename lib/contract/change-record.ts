import { z } from 'zod';
import type { Actor } from './actor';

/** What a change can be about. */
export const CHANGE_SUBJECTS = [
  'site',
  'unit',
  'limit',
  'reference',
  'cleaning',
  'file',
  'override',
  'fall',
  'review',
  'price',
  'calendar',
  'plan',
  'planned-work',
  'import',
  'mapping',
  'account',
  'invitation',
  'token',
] as const;

export type ChangeSubject = (typeof CHANGE_SUBJECTS)[number];

export const CHANGE_ACTIONS = [
  'added',
  'changed',
  'withdrawn',
  'accepted',
  'moved',
  'done',
  'called-off',
  'opened-again',
  'undone',
  'signed-in',
  'locked',
] as const;

export type ChangeAction = (typeof CHANGE_ACTIONS)[number];

/** One change: who, when, of what, and how it stood before and after. */
export const changeRecordSchema = z
  .object({
    id: z.int(),
    at: z.iso.datetime(),
    actor: z.object({ kind: z.enum(['person', 'token', 'local', 'system']), name: z.string() }),
    subject: z.enum(CHANGE_SUBJECTS),
    name: z.string().meta({ description: 'What people call it: a tag, a site, an address' }),
    action: z.enum(CHANGE_ACTIONS),
    before: z.unknown().meta({ description: 'As it stood before; null where there was nothing' }),
    after: z.unknown().meta({ description: 'As it stands since; null where it is no longer there' }),
    note: z.string().nullable(),
  })
  .meta({ id: 'ChangeRecord' });

/** A change as it is kept; `at` in ms since 1970. */
export type KeptChange = {
  id: number;
  at: number;
  actor: Actor;
  subject: ChangeSubject;
  name: string;
  action: ChangeAction;
  before: unknown;
  after: unknown;
  note: string | null;
};
