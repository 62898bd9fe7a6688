import { z } from 'zod';
import { SENSORS } from '@/lib/core/exchange/exchanger';

/** What undoing an import would do: answer of `GET /api/v1/imports/[batch]/undo-preview`. */
export const undoPreviewSchema = z
  .object({
    batch: z.int(),
    file: z.string(),
    removed: z.int().meta({ description: 'Readings that it brought and that would go' }),
    restored: z.int().meta({ description: 'Readings that would have their earlier values again' }),
    kept: z
      .int()
      .meta({ description: 'Readings that a later import has changed since: they stay as they are' }),
  })
  .meta({ id: 'UndoPreview' });

export type UndoPreview = z.infer<typeof undoPreviewSchema>;

const value = z.number().nullable();

/** Values that an import replaced: answer of `GET /api/v1/imports/[batch]/replaced`. */
export const replacedReadingsSchema = z
  .object({
    batch: z.int(),
    file: z.string(),
    replaced: z.int().meta({ description: 'Readings of which the import replaced a value' }),
    isComplete: z.boolean().meta({ description: 'False where there are more than are given out at once' }),
    rows: z.array(
      z.object({
        tag: z.string(),
        time: z.string(),
        sensor: z.enum(SENSORS),
        unit: z.string().meta({ description: 'UCUM code of the value before' }),
        before: value,
        after: value.meta({ description: 'As the import left it; null where the import was undone' }),
        unitAfter: z
          .string()
          .meta({ description: 'Of the value after: a flow can be stated as mass or as volume' }),
        beforeImport: z.int().meta({ description: 'Import whose value stood before' }),
        isChangedSince: z.boolean().meta({ description: 'Whether a later import has changed it again' }),
      }),
    ),
  })
  .meta({ id: 'ReplacedReadings' });

export const replacedQuerySchema = z
  .object({ format: z.enum(['json', 'csv']).optional() })
  .meta({ id: 'ReplacedQuery' });

export type ReplacedReadings = z.infer<typeof replacedReadingsSchema>;
