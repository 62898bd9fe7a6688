import { z } from 'zod';
import { onlyKnown } from './only-known';
import { CLEANING_REASONS, planRequestSchema } from './plan';
import { positiveQuantity } from './quantity';
import { seenRevision, who, why } from './withdrawal';

export const PLANNED_STATES = ['open', 'done', 'called-off'] as const;
export type PlannedState = (typeof PLANNED_STATES)[number];

export const PLANNED_CHANGES = ['moved', 'done', 'called-off', 'opened-again'] as const;
export type PlannedChangeKind = (typeof PLANNED_CHANGES)[number];

const instant = z.iso.datetime({
  offset: true,
  error: 'write it as ISO 8601 with offset, such as 2026-05-04T08:00:00+01:00',
});
const start = z.union([z.iso.date(), instant], {
  error: 'write a day as YYYY-MM-DD, or an instant with its offset, such as 2026-03-02T06:00:00+01:00',
});

/** A schedule that somebody takes on: the server prices and checks it again before it becomes dated work. */
export const planAcceptanceSchema = onlyKnown({
  request: planRequestSchema,
  cleanings: z
    .array(onlyKnown({ tag: z.string().min(1).max(40), start }))
    .min(1, 'there is no cleaning in it'),
  by: who,
  note: z.string().trim().max(500).nullish(),
  after: z.int().min(0).optional().meta({
    description: 'Newest accepted plan you have seen, 0 for none: refused where there is a newer one',
  }),
  acceptClashes: z
    .boolean()
    .default(false)
    .meta({ description: 'True takes a schedule on that breaks a constraint' }),
}).meta({ id: 'PlanAcceptance' });

/** That dated work was done: it becomes a recorded cleaning. */
export const workDoneSchema = onlyKnown({
  at: instant.meta({ description: 'Back in service' }),
  method: z.string().trim().max(120).nullish(),
  cost: z.number().min(0).nullish(),
  duration: positiveQuantity('duration').nullish(),
  note: z.string().trim().max(500).nullish(),
  by: who,
  revision: seenRevision,
}).meta({ id: 'WorkDone' });

/** That a cleaning recorded elsewhere was this piece of work. */
export const workLinkSchema = onlyKnown({ cleaning: z.int().min(1), by: who, revision: seenRevision }).meta({
  id: 'WorkLink',
});

export const workMoveSchema = onlyKnown({
  from: instant.meta({ description: 'It takes as long as before' }),
  reason: why,
  by: who,
  revision: seenRevision,
}).meta({ id: 'WorkMove' });

export const workCallOffSchema = onlyKnown({ reason: why, by: who, revision: seenRevision }).meta({
  id: 'WorkCallOff',
});

export const WORK_FORMATS = ['json', 'csv', 'xlsx', 'ics'] as const;
export const workQuerySchema = z
  .object({ format: z.enum(WORK_FORMATS).default('json') })
  .meta({ id: 'WorkQuery' });

const money = z.number();

/** Dated work out of accepted plans, the earliest first. */
export const workListSchema = z
  .object({
    asOf: z.string(),
    plans: z
      .array(
        z.object({
          id: z.int(),
          site: z.string().nullable().meta({ description: 'Null: it was made for every site' }),
          acceptedAt: z.string(),
          acceptedBy: z.string(),
          note: z.string().nullable(),
        }),
      )
      .meta({ description: 'The newest accepted plan of each site' }),
    work: z.array(
      z.object({
        id: z.int(),
        tag: z.string(),
        site: z.string(),
        from: z.string(),
        to: z.string(),
        outage: z.string().nullable(),
        method: z.string().nullable(),
        crewHours: z.number(),
        currency: z.string(),
        cost: money,
        saves: money.nullable().meta({
          description:
            'Loss that it avoids, as projected when the plan was accepted; null where the unit has no price',
        }),
        reason: z.enum(CLEANING_REASONS),
        state: z.enum(PLANNED_STATES),
        isOverdue: z.boolean(),
        cleaning: z.int().nullable().meta({ description: 'Number of the cleaning recorded for it' }),
        done: z
          .object({
            from: z.string(),
            to: z.string().meta({ description: 'Back in service' }),
            method: z.string().nullable(),
            cost: money.nullable().meta({ description: 'Without downtime' }),
          })
          .nullable()
          .meta({ description: 'What the cleaning was in fact; null until one is recorded' }),
        calendarId: z.string(),
        revision: z.int(),
        changedAt: z.string(),
        changedBy: z.string().nullable(),
        note: z.string().nullable(),
        changes: z.array(
          z.object({
            kind: z.enum(PLANNED_CHANGES),
            from: z.string().meta({ description: 'As it stood before the change' }),
            to: z.string(),
            by: z.string().nullable(),
            reason: z.string().nullable(),
            at: z.string(),
          }),
        ),
      }),
    ),
  })
  .meta({ id: 'WorkList' });

export type PlanAcceptance = z.infer<typeof planAcceptanceSchema>;
export type WorkDone = z.infer<typeof workDoneSchema>;
export type WorkMove = z.infer<typeof workMoveSchema>;
export type WorkLink = z.infer<typeof workLinkSchema>;
export type WorkCallOff = z.infer<typeof workCallOffSchema>;
export type WorkFormat = (typeof WORK_FORMATS)[number];
export type WorkList = z.infer<typeof workListSchema>;

/** Dated work as it stood before a change. Instants are ms since 1970. */
export type PlannedChangeRecord = {
  plannedId: number;
  from: number;
  to: number;
  state: PlannedState;
  kind: PlannedChangeKind;
  by: string | null;
  reason: string | null;
  at: number;
};
