import { z } from 'zod';

const figure = z.number().nullable();
const day = z.iso.date();

/** Periods that can be asked for by name; the first is what a manager asks about. */
export const CLEANING_PERIODS = [
  'last-quarter',
  'this-quarter',
  'last-month',
  'this-month',
  'last-12-months',
  'all',
] as const;

/** What of the cleanings is asked for: a period by name, or by its first and last day. */
export const cleaningsQuerySchema = z
  .object({
    period: z.enum(CLEANING_PERIODS).optional(),
    from: day.optional(),
    to: day.optional(),
    format: z.enum(['json', 'csv']).optional(),
  })
  .refine(({ from, to }) => (from === undefined) === (to === undefined), {
    path: ['to'],
    message: 'give both "from" and "to", or neither',
  })
  .refine(({ from, to }) => from === undefined || to === undefined || from <= to, {
    path: ['to'],
    message: 'must not lie before "from"',
  })
  .meta({ id: 'CleaningsQuery' });

const effectSchema = z.object({
  before: z.number(),
  beforeUncertainty: z.number(),
  after: z.number(),
  afterUncertainty: z.number(),
  recovered: z.number(),
  recoveredUncertainty: z.number(),
  shareRecovered: figure,
  shareRecoveredUncertainty: figure,
  isPartial: z.boolean().nullable(),
  dutyRecovered: figure,
  energySoFar: figure,
  daysCounted: z.int(),
  daysElapsed: z.int(),
  daysUntilBack: z.int().nullable(),
});

/** What cleanings of the fleet did in a period: answer of `GET /api/v1/cleanings`. */
export const fleetCleaningsSchema = z
  .object({
    asOf: z.string().nullable(),
    from: day.nullable(),
    to: day,
    totals: z.object({
      cleanings: z.int(),
      units: z.int(),
      energy: figure,
      money: z.array(
        z.object({
          currency: z.string(),
          cleanings: z.int(),
          paid: z.int(),
          worth: z.number(),
          cost: z.number(),
          net: z.number(),
        }),
      ),
    }),
    cleanings: z.array(
      z.object({
        tag: z.string(),
        site: z.string(),
        service: z.string(),
        at: z.string(),
        method: z.string().nullable(),
        effect: effectSchema.nullable(),
        reason: z
          .enum(['no-figures-between', 'too-few-before', 'too-few-after', 'outside-record'])
          .nullable(),
        currency: z.string(),
        worth: figure,
        cost: figure,
        isUsualCost: z.boolean(),
        net: figure,
      }),
    ),
    probable: z.array(
      z.object({ tag: z.string(), day, fall: z.number(), fallUncertainty: z.number(), share: figure }),
    ),
  })
  .meta({
    id: 'FleetCleanings',
    description:
      'Worth is a floor: without the cleaning the loss would have gone on rising, and days without figures are not counted. Totals of money hold cleanings whose worth and cost are both known',
  });

export type FleetCleanings = z.infer<typeof fleetCleaningsSchema>;
