import { z } from 'zod';
import { ERROR_CODES, type ErrorCode } from '../app-error';

const codes = [...(Object.keys(ERROR_CODES) as ErrorCode[]), 'internal'] as const;

/** Why something was refused, in the form of RFC 9457. */
export const problemSchema = z
  .object({
    type: z.enum(codes.map((code) => `urn:cleanby:problem:${code}` as const)),
    title: z.string().meta({ description: 'The same for every problem of this type' }),
    status: z.int().meta({ description: 'Status of the answer' }),
    detail: z.string().meta({ description: 'What was refused here, in a sentence' }),
    instance: z
      .string()
      .regex(/^urn:uuid:/)
      .meta({ description: 'Number of the request, under which the log of the server has it' }),
    errors: z
      .array(
        z.object({
          field: z.string().meta({ description: 'Path of the field, such as units[2].design.hotIn.unit' }),
          message: z.string().meta({ description: 'What is wrong with it, and what to do' }),
          line: z.int().optional().meta({ description: 'Line of the file, where there is one' }),
        }),
      )
      .meta({ description: 'Every field that is at fault; empty where none is' }),
  })
  .meta({ id: 'Problem', description: 'Problem document of RFC 9457' });

export type ProblemDocument = z.infer<typeof problemSchema>;
