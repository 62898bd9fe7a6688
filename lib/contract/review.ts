import { z } from 'zod';
import type { Reason } from '@/lib/core/checks/reasons';
import type { Limit } from '@/lib/core/exchange/exchanger';
import { onlyKnown } from './only-known';
import { reasonSchema } from './readings';
import { LIMIT_KINDS, STATES, type State } from './results';
import { who } from './withdrawal';

/** Changes a review tells of, the most pressing first. */
export const CHANGE_KINDS = [
  'over-limit',
  'near-limit',
  'no-data',
  'clean-by-sooner',
  'data-worse',
  'suspect',
  'probable-cleaning',
  'cleaned',
  'clean-by-later',
  'below-limit',
] as const;
export type ChangeKind = (typeof CHANGE_KINDS)[number];

/** How soon a person must do something: this week, look into it, or only know. */
export const URGENCIES = ['act', 'look', 'know'] as const;
export type Urgency = (typeof URGENCIES)[number];

/** What people do about a line; `reopened` takes a `seen` back, since nothing is ever overwritten. */
const MARK_KINDS = ['note', 'assigned', 'seen', 'reopened'] as const;
export type MarkKind = (typeof MARK_KINDS)[number];

/** A filter for lines that nobody has taken on. */
export const NOBODY = 'nobody';

const day = z.iso.date({ error: 'write it as YYYY-MM-DD' });
const figure = z.number().nullable();

export const reviewQuerySchema = z
  .object({
    since: day
      .optional()
      .meta({ description: 'Day to compare with; seven days before the newest reading where not stated' }),
    site: z.string().optional(),
    show: z.enum(['all', 'unseen']).optional(),
    assigned: z
      .string()
      .optional()
      .meta({ description: `Only lines this person has taken on; "${NOBODY}": those without anybody` }),
  })
  .meta({ id: 'ReviewQuery' });
export type ReviewQuery = z.infer<typeof reviewQuerySchema>;

const markSchema = z.object({
  kind: z.enum(MARK_KINDS),
  text: z.string().nullable(),
  by: z.string(),
  at: z.string(),
});

/** What was said of a unit at the end of a day. */
const saidSchema = z.object({
  day: z.string(),
  state: z.enum(STATES),
  limit: z.enum(LIMIT_KINDS).nullable(),
  allowanceUsed: figure,
  allowanceUsedUncertainty: figure,
  cleanBy: z.object({
    p10: z.string().nullable(),
    p50: z.string().nullable(),
    p90: z.string().nullable(),
    withinHorizon: figure,
    horizonDays: z.int(),
    crossedOn: z.string().nullable(),
  }),
  usable: figure,
  worstReason: reasonSchema.nullable(),
  computedAt: z.string(),
  methodVersion: z.int(),
  /** True where it was worked out later than on its day: then nobody was told it on that day. */
  isAfterwards: z.boolean(),
});

const lineSchema = z.object({
  /** The same in every review that lists this change; marks are made on it. */
  key: z.string(),
  kind: z.enum(CHANGE_KINDS),
  urgency: z.enum(URGENCIES),
  text: z.string(),
  advice: z.string(),
  /** Address of the unit at the right place and period. */
  href: z.string(),
  isSeen: z.boolean(),
  assignedTo: z.string().nullable(),
  marks: z.array(markSchema),
});

const unitSchema = z.object({
  tag: z.string(),
  service: z.string().nullable(),
  site: z.string(),
  before: saidSchema,
  now: saidSchema,
  lines: z.array(lineSchema),
});

export const reviewSchema = z
  .object({
    since: z.string(),
    /** "Today": the newest reading of the sites looked at; null without any. */
    today: z.string().nullable(),
    site: z.string().nullable(),
    /** Units by their most urgent unseen line, before any filter. */
    counts: z.object({
      units: z.int(),
      act: z.int(),
      look: z.int(),
      know: z.int(),
      seen: z.int(),
      unchanged: z.int(),
    }),
    units: z.array(unitSchema),
    /** Units without a change, by what keeps them worth a thought; tags. */
    unchanged: z.object({
      overLimit: z.array(z.string()),
      nearLimit: z.array(z.string()),
      noData: z.array(z.string()),
      /** Falls that were asked about before and that nobody has answered. */
      unanswered: z.array(z.string()),
      notAnalysed: z.array(z.string()),
    }),
    /** What the filter can be set to: every site, and everyone who has taken a line on. */
    sites: z.array(z.string()),
    assignees: z.array(z.string()),
    notices: z.array(z.string()),
  })
  .meta({ id: 'Review', description: 'What changed since a day, grouped per unit; days of the site' });

export type Review = z.infer<typeof reviewSchema>;
export type ReviewUnit = z.infer<typeof unitSchema>;
export type ReviewLine = z.infer<typeof lineSchema>;
export type Said = z.infer<typeof saidSchema>;

export const markRequestSchema = onlyKnown({
  tag: z.string(),
  line: z
    .string()
    .regex(/^[a-z-]{1,40}@[a-z0-9-]{1,40}$/, 'give the key of a line of the review')
    .meta({ description: 'Key of the line, as the review states it' }),
  by: who,
  kind: z.enum(MARK_KINDS),
  text: z
    .string()
    .trim()
    .max(500)
    .nullish()
    .meta({ description: 'The note, or who takes the line on; nothing for the other kinds' }),
})
  .refine(({ kind, text }) => Boolean(text) || (kind !== 'note' && kind !== 'assigned'), {
    path: ['text'],
    message: 'write the note, or the name of who takes it on',
  })
  .meta({ id: 'ReviewMark', description: 'A mark on a line of the review; earlier ones stay' });
export type MarkRequest = z.infer<typeof markRequestSchema>;

/** What was said of a unit at the end of a local day, as plain JSON. Days are local days since 1970-01-01. */
export type UnitStatement = {
  state: State;
  /** Local day on which the running cycle began. */
  cycleStartDay: number | null;
  /** Governing limit, and the fouling as share of it with its standard uncertainty [-]. */
  limit: Limit['kind'] | null;
  allowanceUsed: number | null;
  allowanceUsedUncertainty: number | null;
  /** Days on which the limit is reached; null where not within the horizon. */
  p10Day: number | null;
  p50Day: number | null;
  p90Day: number | null;
  /** Probability [-]; null where it was too early, or there was nothing recent, to say. */
  withinHorizon: number | null;
  horizonDays: number;
  crossedDay: number | null;
  /** Mean lost duty of the last seven days with figures [W]. */
  lostDuty: number | null;
  /** Share of usable readings [-], what left out most of the rest, and since when the data are suspect. */
  usable: number | null;
  worstReason: Reason | null;
  suspectSinceDay: number | null;
  /** Change of the heat balance that lasts: some sensor is suspect; since when, and by how much [-]. */
  drift: { sinceDay: number; change: number; changeUncertainty: number } | null;
  /** Days after falls that nobody has explained. */
  probableCleanings: number[];
};

/** A statement as it is kept. */
export type StatementRecord = {
  unitId: number;
  day: number;
  /** [ms] */
  computedAt: number;
  methodVersion: number;
  /** Whether the record already reached beyond the day when this was worked out: nobody was told it on that day. */
  isAfterwards: boolean;
  statement: UnitStatement;
};

/** A mark as it is kept; `at` in ms. */
export type MarkRecord = {
  unitId: number;
  line: string;
  kind: MarkKind;
  text: string | null;
  by: string;
  at: number;
};
