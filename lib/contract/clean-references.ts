import { z } from 'zod';
import type { CleanFactors } from '@/lib/core/clean/clean-reference';
import { onlyKnown } from './only-known';
import { who } from './withdrawal';

/** Ways to a clean reference: the datasheet's films, one test of the clean unit, one learned factor, one per film. */
export const REFERENCE_METHODS = ['datasheet', 'test', 'scale', 'two-films'] as const;
export type ReferenceMethod = (typeof REFERENCE_METHODS)[number];

/** Who accepted a reference that nobody did: a unit whose datasheet says "learned" keeps its own. */
export const WORKED_OUT_AUTOMATICALLY = 'worked out automatically';

const instant = z.iso.datetime({ offset: true });

const proposalShape = {
  method: z.enum(REFERENCE_METHODS),
  learnFrom: onlyKnown({ from: instant, to: instant })
    .refine(({ from, to }) => Date.parse(from) < Date.parse(to), {
      path: ['to'],
      message: 'must lie after "from"',
    })
    .nullish()
    .meta({
      description:
        'Period whose accepted readings teach it; the days after the last cleaning where not stated',
    }),
  from: instant
    .nullish()
    .meta({ description: 'Since when it holds; null: from the beginning of the record' }),
};

export const referenceProposalSchema = onlyKnown(proposalShape).meta({
  id: 'CleanReferenceProposal',
  description: 'A clean reference to be worked out and looked at; nothing is stored',
});

export const referenceAcceptanceSchema = onlyKnown({
  ...proposalShape,
  acceptedBy: who.refine((name) => name !== WORKED_OUT_AUTOMATICALLY, 'state the name of a person'),
  reason: z.string().trim().min(1, 'say why').max(500),
  after: z
    .int()
    .min(0)
    .meta({ description: 'Number of the newest reference you have seen; 0 where there was none' }),
}).meta({ id: 'CleanReferenceAcceptance', description: 'Accepts a clean reference; earlier ones are kept' });

export type ReferenceProposal = z.infer<typeof referenceProposalSchema>;
export type ReferenceAcceptance = z.infer<typeof referenceAcceptanceSchema>;

const factors = z.object({ hot: z.number(), wall: z.number(), cold: z.number() });

/** One clean reference as the API gives it: instants in ISO 8601, factors on the datasheet's clean resistances. */
export const cleanReferenceSchema = z
  .object({
    number: z.int(),
    from: z.string().nullable(),
    method: z.enum(REFERENCE_METHODS),
    unitVersion: z.int(),
    factors,
    uncertainty: z.object({ hot: z.number().nullable(), cold: z.number().nullable() }),
    evidence: z.object({ from: z.string(), to: z.string(), readings: z.int() }).nullable(),
    acceptedBy: z.string(),
    reason: z.string(),
    acceptedAt: z.string(),
  })
  .meta({ id: 'CleanReference' });

export const cleanReferencesSchema = z
  .object({
    tag: z.string(),
    /** What the stored results were judged by, one row per stretch. */
    inForce: z.array(
      z.object({
        from: z.string().nullable(),
        unitVersion: z.int(),
        reference: z.int().nullable(),
        factors,
      }),
    ),
    references: z.array(cleanReferenceSchema),
  })
  .meta({ id: 'CleanReferences' });

const figure = z.number().nullable();
const today = z.object({ foulingResistance: figure, allowanceUsed: figure, cleanBy: z.string().nullable() });

/** A clean reference as it would be, and what it would change; `refusal` says why it cannot be accepted. */
export const cleanReferencePreviewSchema = z
  .object({
    method: z.enum(REFERENCE_METHODS),
    learnFrom: z.object({ from: z.string(), to: z.string() }).nullable(),
    from: z.string().nullable(),
    unitVersion: z.int(),
    factors: factors.nullable(),
    uncertainty: z.object({ hot: figure, cold: figure }),
    readings: z.int().nullable(),
    refusal: z.string().nullable(),
    oneScale: z.object({ factor: z.number(), uncertainty: z.number(), scatter: figure }).nullable(),
    twoFilms: z
      .object({
        factors,
        uncertainty: z.object({ hot: z.number(), cold: z.number() }),
        scatter: z.number(),
        correlation: figure,
        condition: figure,
        gain: figure,
        doubts: z.array(z.string()),
      })
      .nullable(),
    effect: z.object({ before: today, after: today }).nullable(),
  })
  .meta({ id: 'CleanReferencePreview' });

export type CleanReferencePreview = z.infer<typeof cleanReferencePreviewSchema>;
export type CleanReferences = z.infer<typeof cleanReferencesSchema>;

/** What "clean" means for a unit from an instant on, with the evidence, who accepted it and why. Instants are ms since 1970. */
export type CleanReferenceRecord = {
  number: number;
  /** Since when it holds; null: from the beginning of the record. */
  from: number | null;
  method: ReferenceMethod;
  /** Datasheet version whose clean resistances the factors multiply. */
  unitVersion: number;
  factors: CleanFactors;
  /** Standard uncertainty of the learned factors [-]; null where a factor was not learned. */
  uncertainty: { hot: number | null; cold: number | null };
  evidence: { from: number; to: number; readings: number } | null;
  acceptedBy: string;
  reason: string;
  acceptedAt: number;
};
