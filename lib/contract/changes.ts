import { z } from 'zod';
import { CHANGE_ACTIONS, CHANGE_SUBJECTS, type ChangeSubject, changeRecordSchema } from './change-record';

const day = z.iso.date({ error: 'write it as YYYY-MM-DD' });
const text = z.string().trim().min(1).max(120);

/** What only those may read who look after accounts. */
export const PEOPLE_SUBJECTS: readonly ChangeSubject[] = ['account', 'invitation', 'token'];

/** Changes on a page. */
export const CHANGES_A_PAGE = 100;

/** Which changes somebody asks for; what is left out does not narrow. */
export const changesQuerySchema = z
  .object({
    who: text.optional().meta({ description: 'Part of the name of whoever changed it' }),
    subject: z.enum(CHANGE_SUBJECTS).optional(),
    name: text.optional().meta({ description: 'A tag, a site, a file: what people call the thing' }),
    action: z.enum(CHANGE_ACTIONS).optional(),
    from: day.optional(),
    to: day.optional().meta({ description: 'That day is among them' }),
    before: z.coerce
      .number<string>()
      .int()
      .min(1)
      .optional()
      .meta({ description: 'Only those with a smaller number: the next page' }),
    format: z.enum(['json', 'csv']).optional(),
  })
  .refine(({ from, to }) => from === undefined || to === undefined || from <= to, {
    path: ['to'],
    message: 'must not lie before "from"',
  })
  .meta({ id: 'ChangesQuery' });

export type ChangesQuery = z.infer<typeof changesQuerySchema>;

/** Who changed what and when, the newest first: answer of `GET /api/v1/changes`. */
export const changesSchema = z
  .object({
    timeZone: z.string().meta({ description: 'Zone of the days asked for' }),
    total: z.int().meta({ description: 'Changes that fit, on every page' }),
    changes: z.array(
      changeRecordSchema.extend({ text: z.string().meta({ description: 'What became of what, in words' }) }),
    ),
    next: z.int().nullable().meta({ description: 'Ask for the next page with before=…; null on the last' }),
  })
  .meta({ id: 'Changes' });

export type Changes = z.infer<typeof changesSchema>;
