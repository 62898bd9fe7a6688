import { z } from 'zod';

const figure = z.number().nullable();
const day = z.iso.date();

/** Periods that can be asked for by name; the first is what a page shows unless asked. */
export const COST_PERIODS = [
  'last-30-days',
  'this-month',
  'last-month',
  'this-quarter',
  'last-quarter',
  'this-year',
  'last-12-months',
] as const;

/** What of the cost of fouling is asked for: a period by name, or by its first and last day, of one site or all. */
export const costsQuerySchema = z
  .object({
    period: z.enum(COST_PERIODS).optional(),
    from: day.optional(),
    to: day.optional(),
    site: z.string().max(80).optional(),
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
  .meta({ id: 'CostsQuery' });

const lossSchema = z
  .object({
    energyLost: figure.meta({ description: 'Heat not transferred [J]; null where no day could be counted' }),
    pumping: figure.meta({ description: 'Extra pump input [J]' }),
    energyBought: figure.meta({
      description:
        'What is bought in its place [J]: the heat over the efficiency or COP of what supplies it, and the pump input',
    }),
    money: figure.meta({ description: 'Of heat and pumping together; null where nothing of it has a price' }),
    carbon: figure.meta({ description: 'CO2e [kg]' }),
    days: z.int().meta({ description: 'Days counted, summed over the units' }),
    bridgedDays: z
      .int()
      .meta({ description: 'Those of them between two figures, taken along the straight line' }),
    unpricedDays: z.int().meta({ description: 'Those of them whose lost heat has no price' }),
    unpricedPumpingDays: z.int().meta({ description: 'Those of them whose pumping has no price' }),
  })
  .meta({ id: 'Loss' });

const uncertainLossSchema = lossSchema
  .extend({ energyLostUncertainty: figure, energyBoughtUncertainty: figure, moneyUncertainty: figure })
  .meta({ id: 'UncertainLoss' });

const siteCostsSchema = uncertainLossSchema.extend({
  site: z.string(),
  currency: z.string(),
  units: z.int().meta({ description: 'Units counted' }),
  before: lossSchema.meta({ description: 'The same number of days before the period' }),
});

const UNCOUNTED_REASONS = ['never-analysed', 'no-figures', 'no-price'] as const;

const unitCostsSchema = uncertainLossSchema.extend({
  tag: z.string(),
  service: z.string(),
  site: z.string(),
  currency: z.string(),
  effect: z.enum(['heating', 'cooling', 'recovery']).nullable(),
  heldOutlet: z
    .enum(['hot', 'cold'])
    .nullable()
    .meta({ description: 'The outlet a valve holds: the loss is the extra flow, not heat' }),
  extraFlow: figure.meta({ description: 'Mean extra flow where an outlet is held [kg/s]' }),
  before: lossSchema,
  reason: z
    .enum(UNCOUNTED_REASONS)
    .nullable()
    .meta({ description: 'Why it is not counted, or counts with its energy alone' }),
});

const monthCostsSchema = lossSchema.extend({
  month: z.string().regex(/^\d{4}-\d{2}$/),
  site: z.string(),
  currency: z.string(),
  isComplete: z
    .boolean()
    .meta({ description: 'False for the month of today, and where the record begins in it' }),
});

/** Why it cannot be told what a cleaning returned, or whether that pays for it. */
const RETURN_UNKNOWN = [
  'no-figures-between',
  'too-few-before',
  'too-few-after',
  'outside-record',
  'outlet-held',
  'no-price',
  'no-cost',
] as const;

const returnedSchema = z.object({
  tag: z.string(),
  site: z.string(),
  day,
  method: z.string().nullable(),
  currency: z.string(),
  cost: figure,
  isUsualCost: z.boolean(),
  energy: figure.meta({ description: 'Won until the next cleaning or today, at the least [J]' }),
  returned: figure.meta({ description: 'That energy at the prices of its days' }),
  returnedUncertainty: figure,
  net: figure,
  paidBackOn: day.nullable(),
  reason: z.enum(RETURN_UNKNOWN).nullable().meta({ description: 'Why it is in no total' }),
});

const plannedSchema = z.object({
  tag: z.string(),
  site: z.string(),
  from: z.string(),
  outage: z.string().nullable(),
  currency: z.string(),
  cost: z.number(),
  saves: figure.meta({
    description: 'Projected when the plan was accepted; null where the unit has no price',
  }),
});

/** What fouling costs: answer of `GET /api/v1/costs` and of `cleanby show costs`. */
export const fleetCostsSchema = z
  .object({
    asOf: z.string().nullable(),
    from: day,
    to: day,
    before: z.object({ from: day, to: day }),
    sites: z.array(siteCostsSchema),
    units: z.array(unitCostsSchema),
    months: z.array(monthCostsSchema),
    cleanings: z.array(returnedSchema),
    planned: z.array(plannedSchema),
  })
  .meta({
    id: 'FleetCosts',
    description:
      'Energy in joules, carbon in kg, money in the currency of the site: that of two is never added. Uncertainties are standard uncertainties, of the fouling resistance alone',
  });

export type CostPeriod = (typeof COST_PERIODS)[number];
export type FleetCosts = z.infer<typeof fleetCostsSchema>;
export type Loss = z.infer<typeof lossSchema>;
export type UncertainLoss = z.infer<typeof uncertainLossSchema>;
export type SiteCosts = z.infer<typeof siteCostsSchema>;
export type UnitCosts = z.infer<typeof unitCostsSchema>;
export type MonthCosts = z.infer<typeof monthCostsSchema>;
export type ReturnedCleaning = z.infer<typeof returnedSchema>;
