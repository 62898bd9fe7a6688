import { z } from 'zod';

/** One thing wrong in a workbook: where, what, and what to do. */
export const sheetFaultSchema = z
  .object({
    sheet: z.string(),
    row: z.int().nullable(),
    cell: z.string().nullable().meta({ description: 'Address of the cell, such as F12' }),
    heading: z.string().nullable(),
    tag: z.string().nullable(),
    message: z.string(),
  })
  .meta({ id: 'SheetFault' });

const changeSchema = z.object({
  heading: z.string(),
  before: z.string().nullable(),
  after: z.string().nullable(),
});

/** What a workbook would do if it was registered; nothing is, while there is any fault. */
export const fleetSheetCheckSchema = z
  .object({
    faults: z.array(sheetFaultSchema),
    faultCount: z.int().meta({ description: 'Of all faults; at most 500 of them are listed' }),
    notes: z.array(z.string()).meta({ description: 'What was passed over' }),
    units: z.array(
      z.object({
        tag: z.string(),
        site: z.string(),
        row: z.int(),
        outcome: z.enum(['added', 'updated', 'unchanged']),
        changes: z.array(changeSchema).meta({ description: 'Fields of a known unit that change' }),
      }),
    ),
    sites: z.array(z.object({ name: z.string(), outcome: z.enum(['added', 'updated']) })),
    prices: z.int().meta({ description: 'Prices of supplies that are new' }),
  })
  .meta({ id: 'FleetSheetCheck' });

export type FleetSheetCheck = z.infer<typeof fleetSheetCheckSchema>;
export type SheetChange = z.infer<typeof changeSchema>;

/** Faults that are listed at most; a workbook of another kind may have one in every cell. */
export const MOST_FAULTS = 500;

/** What is asked of the fleet: results, or the workbook that units are described in. */
export const fleetQuerySchema = z
  .object({
    format: z.enum(['json', 'xlsx']).optional(),
    with: z.enum(['units', 'template']).optional().meta({
      description: 'Of the workbook: with the known units (the default), or to be filled in',
    }),
    measures: z.enum(['si', 'us']).optional().meta({
      description: 'Units of measure of columns in which nothing stands',
    }),
  })
  .meta({ id: 'FleetQuery' });

/** How a fleet is sent: `check=1` says what it would do and stores nothing. */
export const fleetSendingSchema = z
  .object({
    check: z.enum(['1']).optional().meta({ description: 'Check a workbook or CSV and store nothing' }),
  })
  .meta({ id: 'FleetSending' });
