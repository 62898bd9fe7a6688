import { z } from 'zod';
import { importReportSchema } from '../import-report';
import { problemSchema } from './problem';

/** How far the reading of an upload has got. */
export const importProgressSchema = z
  .object({
    bytes: z.int().meta({ description: 'Bytes of the file read so far' }),
    ofBytes: z.int(),
    read: z.int().meta({ description: 'Rows read so far' }),
    setAside: z.int(),
  })
  .meta({ id: 'ImportProgress' });

export type ImportProgress = z.infer<typeof importProgressSchema>;

/** An import as the API answers it. */
export const takenUploadSchema = importReportSchema
  .extend({
    isAnalysed: z
      .boolean()
      .meta({ description: 'Whether the results of the units it changed are up to date' }),
    repeated: z.boolean().meta({
      description:
        'True: the same bytes are here already and change nothing; `batch` is the earlier import, and no new one was made',
    }),
  })
  .meta({ id: 'TakenImport' });

/** A line of the answer to an import whose progress was asked for; the last is the report or the problem. */
export const importLineSchema = z
  .union([
    z.object({ progress: importProgressSchema }),
    z.object({ report: takenUploadSchema }),
    z.object({ problem: problemSchema }),
  ])
  .meta({ id: 'ImportLine' });

export type ImportLine = z.infer<typeof importLineSchema>;
