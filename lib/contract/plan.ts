import { z } from 'zod';
import { onlyKnown } from './only-known';
import { USUAL_CONFIDENCE, USUAL_PLAN_WEEKS } from './plan-defaults';
import { toSi } from './ucum';

const tag = z.string().min(1).max(40);

/** A day (midnight of the site) or an instant. */
const dayOrInstant = z.union([z.iso.date(), z.iso.datetime({ offset: true })], {
  error: 'write a day as YYYY-MM-DD, or an instant with its offset, such as 2026-03-02T06:00:00+01:00',
});

const crewHours = z.number().min(0).max(100_000);

export const plannedOutageSchema = onlyKnown({
  name: z.string().trim().min(1).max(80),
  from: dayOrInstant,
  to: dayOrInstant.meta({ description: 'A day counts to its end, an instant as it stands' }),
  crewHours: crewHours
    .optional()
    .meta({ description: 'Hours of work that fit into it; not stated: as many as needed' }),
  site: z.string().max(80).optional().meta({ description: 'The site that is out; not stated: every one' }),
}).meta({ id: 'PlannedOutage' });

const crewSchema = onlyKnown({
  crewHoursPerWeek: crewHours,
  site: z.string().max(80).optional(),
});

export const LONGEST_PLAN_WEEKS = 104;
export const USUAL_TIME_LIMIT = 10;

/** What it does not know it refuses: a mistyped constraint would be dropped without a word. */
export const planRequestSchema = onlyKnown({
  outages: z.array(plannedOutageSchema).max(500).default([]),
  online: z
    .union([crewSchema, z.array(crewSchema)])
    .optional()
    .meta({ description: 'Crews that clean outside outages; not stated: cleanings in outages only' }),
  notTogether: z
    .array(z.array(tag).min(2))
    .default([])
    .meta({ description: 'Groups of units of which no two may be out at the same time' }),
  confidence: z
    .number()
    .gt(0)
    .lt(1)
    .default(USUAL_CONFIDENCE)
    .meta({ description: 'Probability with which each unit is cleaned before its limit' }),
  weeks: z.int().min(1).max(LONGEST_PLAN_WEEKS).default(USUAL_PLAN_WEEKS),
  site: z.string().max(80).optional().meta({ description: 'Plan this site only' }),
  locked: z
    .array(onlyKnown({ tag, start: dayOrInstant }))
    .default([])
    .meta({ description: 'Cleanings that stay where they are' }),
  timeLimit: z
    .number()
    .gt(0)
    .max(120)
    .default(USUAL_TIME_LIMIT)
    .meta({ description: 'Seconds the solver may take' }),
}).meta({ id: 'PlanRequest' });

export const PLAN_STATUSES = ['optimal', 'within-gap', 'infeasible'] as const;
/** Why a cleaning is in the plan. */
export const CLEANING_REASONS = ['limit', 'over-limit', 'pays', 'locked'] as const;
export const CLASH_KINDS = ['crew', 'together', 'limit', 'no-place'] as const;

const money = z.number();

export const planCleaningSchema = z
  .object({
    tag,
    start: z.string(),
    end: z.string(),
    outage: z.string().nullable(),
    reason: z.enum(CLEANING_REASONS),
    cost: money.meta({ description: 'Cleaning and downtime' }),
    saves: money.meta({ description: 'Loss over the rest of the plan that it avoids' }),
    method: z.string().nullable(),
    crewHours: z.number(),
    isLocked: z.boolean(),
    cleanBefore: z
      .string()
      .nullable()
      .meta({ description: 'Day before which it must start at the plan’s confidence' }),
    daysLate: z.number(),
  })
  .meta({ id: 'PlanCleaning' });

const ruleSchema = z.object({
  total: money.nullable(),
  cost: z.object({ cleaning: money, downtime: money, loss: money }).nullable(),
  cleanings: z.int(),
  broken: z
    .array(z.string())
    .meta({ description: 'What the rule would break where it cannot be followed within the constraints' }),
});

export const planResultSchema = z
  .object({
    status: z.enum(PLAN_STATUSES),
    gap: z.number().nullable(),
    asOf: z.string(),
    from: z.string(),
    to: z.string(),
    confidence: z.number(),
    currency: z.string().nullable(),
    cost: z.object({ cleaning: money, downtime: money, loss: money, total: money }),
    bound: money.nullable().meta({ description: 'No schedule costs less' }),
    cleanings: z.array(planCleaningSchema),
    compared: z.object({
      allAtNextOutage: ruleSchema,
      fixedInterval: ruleSchema.extend({ days: z.number().nullable() }),
      noCleaning: z.object({
        total: money,
        beyondLimit: z
          .int()
          .meta({ description: 'Units that go beyond the day before which they must be cleaned' }),
      }),
    }),
    clashes: z.array(
      z.object({
        tags: z.array(tag),
        constraint: z.string(),
        kind: z.enum(CLASH_KINDS),
      }),
    ),
    leftOut: z
      .array(z.object({ tag, reason: z.string() }))
      .meta({ description: 'Units that nothing can be planned for, and why' }),
    seconds: z.number(),
    isTimeUp: z.boolean(),
  })
  .meta({ id: 'PlanResult', description: 'Money in the currency of the sites' });

export type PlannedOutage = z.infer<typeof plannedOutageSchema>;
export type PlanRequest = z.infer<typeof planRequestSchema>;
export type PlanResult = z.infer<typeof planResultSchema>;
export type PlanCleaning = z.infer<typeof planCleaningSchema>;
export type CleaningReason = (typeof CLEANING_REASONS)[number];

/** Weeks of a horizon written as the command line takes it: "52w", "365d" or "12mo"; null where it cannot be read. */
export function weeksOf(horizon: string): number | null {
  const parts = /^(\d+(?:\.\d+)?)(d|w|wk|mo)?$/.exec(horizon.trim());
  if (parts === null) return null;
  const unit = parts[2] === 'w' || parts[2] === undefined ? 'wk' : parts[2];
  const seconds = toSi(Number(parts[1]), unit, 'duration');
  return seconds === null ? null : Math.round(seconds / (7 * 86_400));
}
