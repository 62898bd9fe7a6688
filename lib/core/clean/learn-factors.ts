import type { CheckSettings } from '../checks/check-settings';
import type { Reason } from '../checks/reasons';
import type { Exchanger } from '../exchange/exchanger';
import { evaluateReadings } from '../fouling/evaluate-readings';
import type { ReadingColumns } from '../series/reading-columns';
import { AS_ON_DATASHEET, type CleanFactors, scaledFactors } from './clean-reference';
import { cleanTestScale } from './clean-test';
import { filmSplit } from './film-split';
import { type LearnedScale, learnScaleWithin } from './learn-scale';
import { type LearnedFilms, learnTwoFilms } from './learn-two-films';

export type LearningInput = {
  method: 'datasheet' | 'test' | 'scale' | 'two-films';
  exchanger: Exchanger;
  settings: CheckSettings;
  /** The clean test, columns of length 1; null where the datasheet states none. */
  test: ReadingColumns | null;
  /** Readings of the period and around it, its beginning and end [ms], and bits of the unit's nominal sensors. */
  readings: ReadingColumns;
  from: number;
  to: number;
  nominal: number;
};

/** Why a method gives no factors: what of it is missing, or the reasons that leave the clean test out. */
export type LearningRefusal =
  | { kind: 'no-test' | 'too-few-readings' | 'films-not-told-apart' }
  | { kind: 'test-left-out'; reasons: Reason[] };

/** Factors on the clean resistances with their standard uncertainties, and both fits of the period for comparison. */
export type LearnedFactors = {
  factors: CleanFactors | null;
  uncertainty: { hot: number | null; cold: number | null };
  evidence: { from: number; to: number; readings: number } | null;
  refusal: LearningRefusal | null;
  scale: LearnedScale | null;
  films: LearnedFilms | null;
};

const NOTHING_LEARNED = {
  factors: null,
  uncertainty: { hot: null, cold: null },
  evidence: null,
  refusal: null,
  scale: null,
  films: null,
} as const;

/**
 * Factors on the datasheet's clean resistances by one of the four methods.
 *
 * @param input method, unit, clean test or readings of a clean period
 * @returns factors [-], standard uncertainties [-] and evidence, or why there are none; two films that the readings cannot
 *   tell apart are refused
 * @range  one version of the datasheet: the period must not reach across a change of the equipment
 * @source METHODS §5
 * @check  tests/core/clean/learn-factors.test.ts
 */
export function learnFactors(input: LearningInput): LearnedFactors {
  if (input.method === 'datasheet') return { ...NOTHING_LEARNED, factors: AS_ON_DATASHEET };
  return input.method === 'test' ? fromTest(input) : fromPeriod(input);
}

function fromTest({ test, exchanger, settings }: LearningInput): LearnedFactors {
  if (test === null) return { ...NOTHING_LEARNED, refusal: { kind: 'no-test' } };
  const learned = cleanTestScale(exchanger, settings, test);
  if (learned.scale === null) {
    return { ...NOTHING_LEARNED, refusal: { kind: 'test-left-out', reasons: learned.reasons } };
  }
  const { scale, uncertainty } = learned;
  return {
    ...NOTHING_LEARNED,
    factors: scaledFactors(scale),
    uncertainty: { hot: uncertainty, cold: uncertainty },
  };
}

function fromPeriod(input: LearningInput): LearnedFactors {
  const { method, from, to } = input;
  const scale = learnScaleWithin(evaluateReadings({ ...input, cleanFactors: AS_ON_DATASHEET }), from, to);
  const films = learnTwoFilms(filmSplit(input, from, to));
  const both = { ...NOTHING_LEARNED, scale, films };
  if (scale === null || films === null) return { ...both, refusal: { kind: 'too-few-readings' } };
  const evidence = { from: scale.from, to: scale.to, readings: scale.readings };
  if (method === 'scale') {
    const uncertainty = { hot: scale.uncertainty, cold: scale.uncertainty };
    return { ...both, factors: scaledFactors(scale.scale), uncertainty, evidence };
  }
  if (films.doubts.length > 0) return { ...both, evidence, refusal: { kind: 'films-not-told-apart' } };
  return { ...both, factors: films.factors, uncertainty: films.uncertainty, evidence };
}
