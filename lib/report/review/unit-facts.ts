import type { UnitStatement } from '@/lib/contract/review';
import type { StepDown } from '@/lib/core/cycles/find-step-downs';
import type { CleaningDone } from './cleaning-done';

/** What the rules of a review look at: a unit as it was described on a day, and as it is described now. */
export type UnitFacts = {
  before: UnitStatement;
  beforeDay: number;
  now: UnitStatement;
  nowDay: number;
  /** Recorded cleanings from `beforeDay` to `nowDay`. */
  cleanings: CleaningDone[];
  /** Falls that nobody has explained, as found today. */
  falls: Pick<StepDown, 'day' | 'fall' | 'fallUncertainty' | 'share'>[];
  /** Day of the newest accepted reading, and of the newest one of any kind; null without any. */
  lastAcceptedDay: number | null;
  lastReceivedDay: number | null;
};
