import { z } from 'zod';
import { siteSchema, unitSchema } from '../fleet-file';
import { setAsideRowSchema } from '../import-preview';
import { onlyKnown } from '../only-known';
import { workListSchema } from '../planned';
import { unitFiguresSchema } from '../unit-figures';
import { problemSchema } from './problem';

const version = z.int().meta({ description: 'Version of the datasheet: state it when you change the unit' });
const isAnalysed = z
  .boolean()
  .meta({ description: 'Whether results are up to date with it; false: the next analysis makes up for it' });
const tags = z.array(z.string());

export const registeredUnitsSchema = z
  .object({ units: z.array(z.object({ tag: z.string(), site: siteSchema, version, unit: unitSchema })) })
  .meta({ id: 'RegisteredUnits' });

/** One unit with its site, to be added or changed. */
export const unitRequestSchema = onlyKnown({
  site: siteSchema,
  unit: unitSchema,
  version: z
    .int()
    .min(1)
    .nullish()
    .meta({ description: 'Version of the datasheet it was edited from; absent or null for a new unit' }),
}).meta({ id: 'UnitRequest' });

export const savedUnitSchema = z
  .object({
    tag: z.string(),
    version,
    outcome: z.enum(['added', 'updated', 'unchanged']),
    isAnalysed,
  })
  .meta({ id: 'SavedUnit' });

/** What stands in the way of a unit, and what already follows from it: the answer where `check` is 1. */
export const unitPreviewSchema = z
  .object({ errors: problemSchema.shape.errors, figures: unitFiguresSchema })
  .meta({ id: 'UnitPreview' });

export const unitAnswerSchema = z.union([savedUnitSchema, unitPreviewSchema]).meta({ id: 'UnitAnswer' });

export const takenFleetSchema = z
  .object({
    added: tags,
    updated: tags,
    unchanged: tags,
    isAnalysed,
    notes: tags.optional().meta({ description: 'Of a workbook: what was passed over' }),
    prices: z.int().optional().meta({ description: 'Of a workbook: prices of supplies that are new' }),
  })
  .meta({ id: 'TakenFleet' });

export const importsSchema = z
  .object({
    imports: z.array(
      z.object({
        id: z.int(),
        source: z.string(),
        createdAt: z.int().meta({ description: 'ms since 1970' }),
        read: z.int(),
        added: z.int(),
        replaced: z.int(),
        unchanged: z.int(),
        setAside: z.int(),
        undoneAt: z.int().nullable().meta({ description: 'ms since 1970; null while it stands' }),
        importedBy: z.string().nullable(),
        undoneBy: z.string().nullable(),
      }),
    ),
  })
  .meta({ id: 'Imports', description: 'The latest imports, newest first' });

export const setAsideSchema = z
  .object({ batch: z.int(), file: z.string(), rows: z.array(setAsideRowSchema) })
  .meta({ id: 'SetAside' });

export const undoneImportSchema = z
  .object({
    batch: z.int(),
    removed: z.int().meta({ description: 'Rows that the import had added' }),
    restored: z.int().meta({ description: 'Rows that have their earlier values back' }),
    kept: z.int().meta({ description: 'Rows that a later import has changed since: they keep its values' }),
    units: tags,
    isAnalysed,
  })
  .meta({ id: 'UndoneImport' });

export const acceptedPlanSchema = workListSchema
  .extend({ accepted: z.int().meta({ description: 'Number of the accepted plan' }) })
  .meta({ id: 'AcceptedPlan' });

export const finishedWorkSchema = workListSchema
  .extend({ tag: z.string(), cleaning: z.int().meta({ description: 'Number of the cleaning' }) })
  .meta({ id: 'FinishedWork' });

export const calledOffWorkSchema = workListSchema.extend({ tag: z.string() }).meta({ id: 'CalledOffWork' });

export const movedWorkSchema = workListSchema
  .extend({
    tag: z.string(),
    outage: z.string().nullable(),
    cost: z.number(),
    breaks: z.array(z.string()).meta({ description: 'Constraints that it breaks where it lies now' }),
  })
  .meta({ id: 'MovedWork' });

export const deletedMappingSchema = z.object({ deleted: z.string() }).meta({ id: 'DeletedMapping' });
