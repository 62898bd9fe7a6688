import { z } from 'zod';

/** Why a row of a file was kept aside. */
export const SET_ASIDE_REASONS = [
  'wrong-number-of-fields',
  'time-not-readable',
  'time-without-zone',
  'time-occurs-twice',
  'time-does-not-exist',
  'unknown-tag',
  'unknown-sensor',
  'value-not-a-number',
  'no-values',
  'quoting-broken',
  'line-too-long',
  'not-json',
] as const;

export type SetAsideReason = (typeof SET_ASIDE_REASONS)[number];

/** A row that could not be read, with what a person needs to find and mend it. */
export type SetAsideRow = {
  line: number;
  text: string;
  reason: SetAsideReason;
  /** Column name, or null where the row as a whole is at fault. */
  field: string | null;
  message: string;
};

/** Status words of cells that hold one instead of a value: their number, and that of each of the first 20 words. */
export const statusCellsSchema = z.object({ total: z.int(), byWord: z.record(z.string(), z.int()) }).meta({
  id: 'StatusCells',
  description: 'Cells that hold a status word (Bad, No Data) instead of a value: they count as not measured',
});

export type StatusCells = z.infer<typeof statusCellsSchema>;

export const importReportSchema = z
  .object({
    batch: z
      .int()
      .nullable()
      .meta({ description: 'Number of the batch; null for a check that stored nothing' }),
    file: z.string(),
    read: z.int().meta({ description: 'Data rows in the file' }),
    added: z.int(),
    replaced: z.int(),
    unchanged: z.int(),
    setAside: z.int(),
    setAsideByReason: z.partialRecord(z.enum(SET_ASIDE_REASONS), z.int()),
    statusCells: statusCellsSchema.optional(),
    units: z.array(z.string()),
    firstTime: z.string().nullable(),
    lastTime: z.string().nullable(),
  })
  .meta({ id: 'ImportReport' });

export type ImportReport = z.infer<typeof importReportSchema>;
