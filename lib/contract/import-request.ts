import { z } from 'zod';
import { isTimeZone } from './fleet-file';
import { mappingSchema } from './mapping';
import { timeFormatSchema } from './time-format';

const flag = z
  .enum(['0', '1', 'false', 'true'])
  .optional()
  .transform((text) => text === '1' || text === 'true');

const mappingText = z
  .string()
  .optional()
  .transform((text, context) => {
    if (text === undefined || text === '') return null;
    try {
      return JSON.parse(text) as unknown;
    } catch {
      context.addIssue({ code: 'custom', message: 'is no JSON; send the mapping as one JSON object' });
      return z.NEVER;
    }
  })
  .pipe(mappingSchema.nullable());

/** What stands in the address of an upload of readings; the body is the file itself. */
export const importQuerySchema = z
  .object({
    name: z
      .string()
      .trim()
      .min(1)
      .max(200)
      .default('readings.csv')
      .meta({ description: 'What the list of imports calls the file' }),
    timeZone: z
      .string()
      .optional()
      .transform((text) => (text === undefined || text === '' ? null : text))
      .refine(
        (zone) => zone === null || isTimeZone(zone),
        'is not a time zone of the IANA list, such as Europe/Lisbon',
      )
      .meta({ description: 'Zone of times without offset, such as Europe/Lisbon' }),
    mapping: mappingText.meta({ description: 'How the columns belong to units, as one JSON object' }),
    timeFormat: timeFormatSchema
      .or(z.literal(''))
      .optional()
      .transform((format) => format || null)
      .meta({ description: 'How times are written, where the file does not show it; above the mapping' }),
    mappingName: z
      .string()
      .trim()
      .max(80)
      .optional()
      .transform((name) => name || null)
      .meta({ description: 'Name of a saved mapping to read the file with, in place of `mapping`' }),
    check: flag.meta({ description: '1: read and count, store nothing' }),
    cut: flag.meta({ description: '1: the body is only the beginning of the file' }),
  })
  .meta({ id: 'ImportQuery' });
