import type { CleaningReason } from '@/lib/contract/plan';

/** Why a cleaning is in the plan, in words. */
export const REASON_WORDS: Record<CleaningReason, string> = {
  limit: 'due before its limit',
  'over-limit': 'over its limit',
  pays: 'pays for itself',
  locked: 'fixed by a person',
};
