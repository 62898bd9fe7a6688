import type { Unit } from '@/lib/contract/fleet-file';
import { trueFouling, trueGrowth } from '../generate/true-growth';
import {
  type CleaningPlan,
  type EarlierDatasheet,
  type FaultPlan,
  type GrowthPlan,
  type MeasurementPlan,
  type OperationPlan,
  planUnit,
  type UnitPlan,
  USUAL_MEASUREMENT,
} from '../generate/unit-plan';

/** The law by which a unit fouls; `dueInDays` sets the pace of those that have one. */
type Law =
  | { kind: 'none' }
  | { kind: 'linear' }
  | { kind: 'delayed-linear'; delayDays: number }
  | { kind: 'falling-rate'; exponent: number }
  | { kind: 'asymptotic'; asymptoteShare: number; timeConstantDays: number };

/** One unit's past, told from the last day backwards. */
export type Story = {
  tag: string;
  law: Law;
  /** Days since the last cleaning, and lengths of the cycles before it [days], the latest first. */
  ageDays: number;
  earlierDays: number[];
  /** Days until the true fouling reaches the limit; below 0 it has been over it so long. Not for an asymptote. */
  dueInDays?: number;
  /** Share of the fouling that the last and the earlier cleanings took off. */
  lastRecovers?: number;
  recovers?: number;
  /** Which of the cleanings, counted back from the last one at 0, nobody wrote down. */
  unrecorded?: number[];
  operation?: OperationPlan;
  measurement?: Partial<MeasurementPlan>;
  cleanScale?: number;
  trueFilms?: UnitPlan['trueFilms'];
  faults?: FaultPlan[];
  /** What the datasheet said until the equipment was changed. */
  before?: { datasheet: Partial<Unit>; untilDaysAgo: number; changeHours: number };
};

/** Days of record in the demonstration: eighteen months. */
export const DEMO_DAYS = 548;
const USUAL_RECOVERY = 0.96;
/** No two cycles of a unit go at quite the same pace, nor does a job cost the same twice. */
const PACES = [1.05, 0.95, 1.02, 0.97, 1.07, 1];
const COST_FACTORS = [1, 1.08, 0.95, 1.03, 0.98];
/** Earlier cleanings came before the limit: at most at this share of it. */
const LATEST_SHARE = 0.95;
/** True fouling wanders about its growth by this share of the limit. */
const WANDER = 0.012;

/** The plan of a unit whose past is told by a story. */
export function planFromStory(story: Story, unit: Unit, utcOffsetHours: number): UnitPlan {
  const lengths = [...story.earlierDays, firstLength(story)];
  const earlier = lengths.map((days, back) => earlierGrowth(story, days, PACES[back % PACES.length]!));
  const growths = [lastGrowth(story, leftOver(story, lengths, earlier)), ...earlier];
  const { operation, cleanScale, trueFilms, faults, before } = story;
  return planUnit({
    unit,
    utcOffsetHours,
    first: { ageDays: firstAge(story), growth: growths.at(-1)! },
    cleanings: cleanings(story, unit, growths),
    measurement: { ...USUAL_MEASUREMENT, ...story.measurement },
    wander: WANDER,
    ...(operation && { operation }),
    ...(cleanScale && { cleanScale }),
    ...(trueFilms && { trueFilms }),
    ...(faults && { faults }),
    ...(before && { earlier: [earlierDatasheet(before, unit)] }),
  });
}

function earlierDatasheet(before: NonNullable<Story['before']>, unit: Unit): EarlierDatasheet {
  const { datasheet, untilDaysAgo, changeHours } = before;
  return { unit: { ...unit, ...datasheet }, untilDaysAgo, changeHours };
}

/** Days of record before the oldest cleaning. */
function daysBefore({ ageDays, earlierDays }: Story): number {
  return DEMO_DAYS - ageDays - earlierDays.reduce((sum, days) => sum + days, 0);
}

/** The record begins within a cycle as long as the others. */
function firstAge(story: Story): number {
  return Math.max(0, (story.earlierDays.at(-1) ?? story.ageDays) - daysBefore(story));
}

function firstLength(story: Story): number {
  return firstAge(story) + daysBefore(story);
}

function cleanings(story: Story, unit: Unit, growths: GrowthPlan[]): CleaningPlan[] {
  const usualRecovery = story.recovers ?? USUAL_RECOVERY;
  const cost = unit.cleaning?.cost ?? null;
  let daysAgo = story.ageDays;
  const latestFirst = [story.ageDays, ...story.earlierDays].map((_, back): CleaningPlan => {
    if (back > 0) daysAgo += story.earlierDays[back - 1]!;
    return {
      daysAgo,
      durationHours: unit.cleaning?.duration?.value ?? 0,
      recovers: back === 0 ? (story.lastRecovers ?? usualRecovery) : usualRecovery,
      isRecorded: !(story.unrecorded ?? []).includes(back),
      method: unit.cleaning?.method ?? null,
      cost: cost === null ? null : Math.round(cost * COST_FACTORS[back % COST_FACTORS.length]!),
      growth: growths[back]!,
    };
  });
  return latestFirst.reverse();
}

/** Growth now: the limit is reached on the day the story says, in spite of what the last cleaning left behind. */
function lastGrowth({ law, ageDays, dueInDays }: Story, remains: number): GrowthPlan {
  if (law.kind === 'none' || law.kind === 'asymptotic') return law;
  return atLimitAfter(law, ageDays + (dueInDays ?? 0), 1 - remains);
}

/** Growth in an earlier cycle: near the pace of the last one, but cleaned before it reached the limit. */
function earlierGrowth({ law, ageDays, dueInDays }: Story, days: number, pace: number): GrowthPlan {
  if (law.kind === 'none' || law.kind === 'asymptotic') return law;
  const usual = atLimitAfter(law, (ageDays + (dueInDays ?? 0)) * pace, 1);
  const slowest = atLimitAfter(law, days, LATEST_SHARE);
  return usual.limitAtDays > slowest.limitAtDays ? usual : slowest;
}

type Paced = Extract<Law, { kind: 'linear' | 'delayed-linear' | 'falling-rate' }>;

/** The growth that, from clean, has reached `share` of the limit at an age. */
function atLimitAfter(
  law: Paced,
  ageDays: number,
  share: number,
): Extract<GrowthPlan, { limitAtDays: number }> {
  switch (law.kind) {
    case 'linear':
      return { ...law, limitAtDays: ageDays / share };
    case 'delayed-linear':
      return { ...law, limitAtDays: law.delayDays + (ageDays - law.delayDays) / share };
    case 'falling-rate':
      return { ...law, limitAtDays: ageDays / share ** (1 / law.exponent) };
  }
}

/** Share of the limit that the last cleaning left behind. */
function leftOver(story: Story, lengths: number[], growths: GrowthPlan[]): number {
  const usualRecovery = story.recovers ?? USUAL_RECOVERY;
  let remains = 0;
  for (let back = lengths.length - 1; back >= 0; back--) {
    const share = trueFouling(trueGrowth(growths[back]!, 1, remains), lengths[back]!);
    remains = share * (1 - (back === 0 ? (story.lastRecovers ?? usualRecovery) : usualRecovery));
  }
  return remains;
}
