'use server';

import { formatInstant } from '@/lib/report/format/time';
import { readCleaningCorrection } from '@/lib/report/unit/cleaning-correction-input';
import { readCleaningForm } from '@/lib/report/unit/cleaning-input';
import { readWithdrawal } from '@/lib/report/unit/withdrawal-input';
import { correctCleaning } from '@/lib/work/correct-cleaning';
import { knownUnit } from '@/lib/work/known-unit';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { withdrawCleaning } from '@/lib/work/withdraw-cleaning';
import type { FormOutcome } from './form-outcome';
import { settle } from './settle';

/** Records the cleaning of the form. */
export async function recordCleaningAction(_before: FormOutcome, form: FormData): Promise<FormOutcome> {
  return settle('recordCleaningAction', form, async (context, { tag, fields }) => {
    const { timeZone } = (await knownUnit(context, tag)).site;
    const done = readCleaningForm(fields, { timeZone, now: context.now() });
    await recordCleaning(context, { tag, ...done, isNew: true });
    return `Recorded: ${tag} cleaned ${formatInstant(done.at, timeZone)}. A new cycle begins there.`;
  });
}

/** Corrects time, method, cost or note of a recorded cleaning. */
export async function correctCleaningAction(_before: FormOutcome, form: FormData): Promise<FormOutcome> {
  return settle('correctCleaningAction', form, async (context, { tag, fields }) => {
    const { timeZone } = (await knownUnit(context, tag)).site;
    await correctCleaning(context, tag, readCleaningCorrection(fields, timeZone));
    return 'Corrected. The results were worked out anew.';
  });
}

/** Takes a recorded cleaning back; it stays in the history. */
export async function withdrawCleaningAction(_before: FormOutcome, form: FormData): Promise<FormOutcome> {
  return settle('withdrawCleaningAction', form, async (context, { tag, fields }) => {
    const { kind: _, ...withdrawal } = readWithdrawal(fields);
    await withdrawCleaning(context, tag, withdrawal);
    return 'Withdrawn. The results were worked out anew.';
  });
}
