import type { SetAsideReason } from '@/lib/contract/import-report';

/** Why rows were kept aside, and what would mend them all. */
export const SET_ASIDE_WORDS: Record<SetAsideReason, { reason: string; remedy: string }> = {
  'wrong-number-of-fields': {
    reason: 'not as many fields as the header',
    remedy: 'Look for a lost or an extra delimiter in these rows.',
  },
  'time-not-readable': {
    reason: 'time not readable',
    remedy: 'Write them as the other times of the file, or as ISO 8601, such as 2026-11-25T08:30:00+01:00.',
  },
  'time-without-zone': {
    reason: 'time without offset',
    remedy: 'Choose the zone of these times above, or write each with its offset.',
  },
  'time-occurs-twice': {
    reason: 'time occurs twice when the clocks go back',
    remedy: 'Write the times of that hour with their offset: nobody can tell which of the two is meant.',
  },
  'time-does-not-exist': {
    reason: 'time that the clocks skipped',
    remedy: 'Write the times of that hour with their offset, or look whether the zone is right.',
  },
  'unknown-tag': { reason: 'unknown tag', remedy: 'Add the unit first, or mend the tag.' },
  'unknown-sensor': {
    reason: 'unknown sensor name',
    remedy: 'Say in the mapping which unit and quantity the name stands for, or skip it.',
  },
  'value-not-a-number': {
    reason: 'value that is no number',
    remedy: 'Leave a cell empty where nothing was measured; look at the decimal sign.',
  },
  'no-values': { reason: 'no value in the row', remedy: 'Nothing is lost: the row says nothing.' },
  'quoting-broken': {
    reason: 'quotes not closed',
    remedy: 'Close the quote, or write a quote inside quotes twice.',
  },
  'not-json': {
    reason: 'no JSON document',
    remedy: 'Write one whole JSON document on each line.',
  },
  'line-too-long': { reason: 'line too long', remedy: 'Look whether line breaks were lost.' },
};

/** The words of a reason that came out of a database; the code itself should a newer version have written it. */
export function setAsideInWords(reason: string): { reason: string; remedy: string } {
  return SET_ASIDE_WORDS[reason as SetAsideReason] ?? { reason, remedy: '' };
}
