import { z } from 'zod';

/** Longest address by RFC 5321, 4.5.3.1.3 (a path of 256 with its brackets). */
const LONGEST_ADDRESS = 254;
const LONGEST_NAME = 100;

const ROLE_NAMES = ['viewer', 'engineer', 'planner', 'manager', 'administrator'] as const;

/** Accounts are told apart by their address, whatever its letters' case. */
export const emailSchema = z
  .string()
  .trim()
  .toLowerCase()
  .pipe(z.email({ error: 'give an e-mail address, such as name@plant.example' }).max(LONGEST_ADDRESS));

/** What a record and a list show of somebody: no line breaks or other control characters. */
export const personNameSchema = z
  .string()
  .trim()
  .min(1, 'say what this person is called')
  .max(LONGEST_NAME)
  .regex(/^\P{Cc}*$/u, 'leave out line breaks and control characters');

export const roleSchema = z.enum(ROLE_NAMES, { error: `choose one of ${ROLE_NAMES.join(', ')}` });

/** An account to be made. */
export const accountSchema = z.object({ name: personNameSchema, email: emailSchema, role: roleSchema });

/** Whose account, and the number of the version that whoever changes it has seen. */
const seen = { id: z.string().min(1), revision: z.coerce.number().int().nonnegative() };

/** What an administrator does to an account. */
export const personChangeSchema = z.discriminatedUnion('what', [
  z.object({ ...seen, what: z.literal('role'), role: roleSchema }),
  z.object({ ...seen, what: z.enum(['enable', 'disable', 'unlock', 'end-sessions']) }),
]);

export type PersonChangeRequest = z.infer<typeof personChangeSchema>;
export type AccountRequest = z.infer<typeof accountSchema>;
