import { z } from 'zod';
import { GROWTH_MODELS } from '@/lib/core/growth/growth';
import { reasonSchema } from './readings';
import { STATES } from './unit-states';

export { STATES } from './unit-states';

export const LIMIT_KINDS = [
  'fouling-resistance',
  'cleanliness',
  'outlet-temperature',
  'pressure-drop',
] as const;

const CYCLE_BEGINNINGS = ['cleaning', 'probable-cleaning', 'record'] as const;
const NO_RESULT_REASONS = ['no-figures-between', 'too-few-before', 'too-few-after'] as const;

const figure = z.number().nullable();
const day = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/)
  .nullable();

export const dailyFigureSchema = z
  .object({
    day: z.string(),
    readings: z.int(),
    accepted: z.int(),
    duty: figure,
    U: figure,
    cleanU: figure,
    foulingResistance: figure,
    uncertainty: figure,
    lostDuty: figure,
  })
  .meta({ id: 'DailyFigure' });

export const dailyResultSchema = z
  .object({ tag: z.string(), days: z.array(dailyFigureSchema) })
  .meta({ id: 'DailyResult' });

const modelSchema = z.object({
  name: z.enum(GROWTH_MODELS),
  weight: z.number(),
  parameters: z.record(z.string(), z.number()),
});

const periodShape = {
  sinceCleaning: figure,
  last30Days: figure,
  thisYear: figure.meta({ description: 'Since 1 January, local' }),
};

const moneySchema = z.object({
  currency: z.string(),
  ...periodShape,
  perDay: figure.meta({ description: 'Losses of the last days at the prices of today' }),
  unpricedDays: z.object({ sinceCleaning: z.int(), last30Days: z.int(), thisYear: z.int() }).meta({
    description: 'Days without a price of something lost on them, which is then not in the figures',
  }),
});

/** How past projections made at half the life of their cycle did. */
const pastProjectionsSchema = z
  .object({
    count: z.int(),
    held: figure.meta({ description: 'Share whose P10 to P90 held the day that came, before any widening' }),
    medianErrorDays: figure,
    medianErrorShare: figure.meta({ description: 'The error as a share of the time that was left' }),
  })
  .meta({ id: 'PastProjections' });

const healthSchema = z
  .object({
    usable: figure,
    worstReason: reasonSchema.nullable(),
    since: day,
    suspectSince: day.meta({ description: 'Since when the data are suspect, whichever the sign of it' }),
    drift: z
      .object({
        kind: z.enum(['drift', 'shift']),
        change: z.number(),
        perMonth: figure.meta({ description: 'Growth in 30 days; null where it came at once' }),
        since: z.string(),
      })
      .nullable()
      .meta({ description: 'Lasting change of the heat balance error: some sensor is suspect' }),
  })
  .meta({ id: 'Health' });

export const unitResultSchema = z
  .object({
    tag: z.string(),
    asOf: z.string().nullable(),
    state: z.enum(STATES),
    foulingResistance: figure,
    uncertainty: figure,
    cleanliness: figure,
    allowanceUsed: figure,
    allowanceUsedUncertainty: figure,
    cycleStart: day,
    growth: z.object({ models: z.array(modelSchema), ratePerDay: figure }),
    cleanBy: z.object({
      limit: z.enum(LIMIT_KINDS).nullable(),
      p10: day,
      p50: day,
      p90: day,
      withinHorizon: figure,
      horizonDays: z.int(),
      crossedOn: day,
      widenedBy: z.number().meta({
        description:
          'Factor by which P10 and P90 are spread because past projections were too narrow; 1: they were not',
      }),
      borrowedFrom: z
        .enum(['own-cycles', 'like-units'])
        .nullable()
        .meta({ description: 'What informs a young cycle beside its own figures' }),
    }),
    lostDuty: figure,
    energyLost: z.object(periodShape),
    pumping: z.object(periodShape).meta({ description: 'Extra electric work of the pumps' }),
    cost: moneySchema.nullable(),
    carbon: z.object({ ...periodShape, perDay: figure }).nullable(),
    returned: z
      .array(
        z.object({
          cleanedAt: z.string(),
          money: figure,
          moneyUncertainty: figure,
          paidBackOn: day,
        }),
      )
      .meta({
        description:
          'What each recorded cleaning has returned until the next one or today, at the least, at the prices of the days',
      }),
    economicDate: day.meta({ description: 'Day of least mean cost for the next cleaning' }),
    record: pastProjectionsSchema,
    probableCleanings: z.array(
      z.object({ day: z.string(), before: z.number(), after: z.number(), share: figure }),
    ),
    health: healthSchema,
  })
  .meta({ id: 'UnitResult', description: 'Energy in joules, duty in watts, fouling resistance in m2.K/W' });

/** What a recorded cleaning did: every figure is null where `reason` says why it cannot be told. */
const cleaningResultSchema = z
  .object({
    before: figure,
    after: figure,
    shareRecovered: figure,
    shareRecoveredUncertainty: figure,
    dutyRecovered: figure,
    energyWorth: figure.meta({ description: 'Won until the next cleaning or today, at the least' }),
    daysUntilBack: z.int().nullable().meta({ description: 'Until the fouling was back at its level before' }),
    reason: z.enum(NO_RESULT_REASONS).nullable(),
  })
  .meta({
    id: 'CleaningResult',
    description: 'Fouling resistance in m2.K/W, duty in watts, energy in joules',
  });

export const cyclesResultSchema = z
  .object({
    tag: z.string(),
    cycles: z.array(
      z.object({
        from: z.string(),
        to: z.string(),
        days: z.int(),
        figures: z.int(),
        foulingAtStart: figure,
        foulingAtEnd: figure,
        ratePerDay: figure,
        began: z.enum(CYCLE_BEGINNINGS),
        cleaning: cleaningResultSchema
          .nullable()
          .meta({ description: 'What the cleaning that began the cycle did' }),
      }),
    ),
  })
  .meta({ id: 'CyclesResult' });

const unitHealthSchema = healthSchema.extend({ tag: z.string() }).meta({ id: 'UnitHealth' });

export const fleetHealthSchema = z
  .object({
    units: z.array(unitHealthSchema),
    fleet: z.object({
      units: z.int(),
      usable: figure.meta({ description: 'Mean of the units’ shares of usable readings' }),
      suspect: z.int().meta({ description: 'Units whose data are suspect' }),
    }),
  })
  .meta({ id: 'FleetHealth' });

export type DailyFigure = z.infer<typeof dailyFigureSchema>;
export type DailyResult = z.infer<typeof dailyResultSchema>;
export type UnitResult = z.infer<typeof unitResultSchema>;
export type CyclesResult = z.infer<typeof cyclesResultSchema>;
export type UnitHealth = z.infer<typeof unitHealthSchema>;
export type FleetHealth = z.infer<typeof fleetHealthSchema>;
export type PastProjections = z.infer<typeof pastProjectionsSchema>;
export type State = (typeof STATES)[number];
