import { z } from 'zod';
import { GROWTH_MODELS } from '@/lib/core/growth/growth';
import { reasonSchema } from './readings';

export const STATES = ['clean', 'fouling', 'near-limit', 'over-limit', 'no-data'] as const;
export const LIMIT_KINDS = [
  'fouling-resistance',
  'cleanliness',
  'outlet-temperature',
  'pressure-drop',
] as const;

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

const moneySchema = z.object({
  currency: z.string(),
  sinceCleaning: figure,
  last30Days: figure,
  perDay: figure,
});

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
    }),
    lostDuty: figure,
    energyLost: z.object({ sinceCleaning: figure, last30Days: figure }),
    cost: moneySchema.nullable(),
    carbon: z.object({ sinceCleaning: figure, last30Days: figure, perDay: figure }).nullable(),
    economicDate: day,
    health: z.object({ usable: figure, worstReason: reasonSchema.nullable(), since: day }),
  })
  .meta({ id: 'UnitResult', description: 'Energy in joules, duty in watts, fouling resistance in m2.K/W' });

export type DailyFigure = z.infer<typeof dailyFigureSchema>;
export type DailyResult = z.infer<typeof dailyResultSchema>;
export type UnitResult = z.infer<typeof unitResultSchema>;
export type State = (typeof STATES)[number];
