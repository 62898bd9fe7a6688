'use server';

import { formatInstant } from '@/lib/report/format/time';
import { readFallForm } from '@/lib/report/unit/fall-input';
import { VERDICT_WORDS } from '@/lib/report/unit/judged-spans';
import { readVerdictForm } from '@/lib/report/unit/verdict-input';
import { readWithdrawal } from '@/lib/report/unit/withdrawal-input';
import { answerFall } from '@/lib/work/answer-fall';
import { judgePeriod } from '@/lib/work/judge-period';
import { knownUnit } from '@/lib/work/known-unit';
import { withdrawAnswer } from '@/lib/work/withdraw-answer';
import { withdrawVerdict } from '@/lib/work/withdraw-verdict';
import type { FormOutcome } from './form-outcome';
import { settle } from './settle';

/** Leaves the readings of a period out, or counts them in. */
export async function judgePeriodAction(_before: FormOutcome, form: FormData): Promise<FormOutcome> {
  return settle('judgePeriodAction', form, async (context, { tag, fields }) => {
    const { timeZone } = (await knownUnit(context, tag)).site;
    const request = readVerdictForm(fields, timeZone);
    await judgePeriod(context, tag, request);
    const words = (at: string) => formatInstant(Date.parse(at), timeZone);
    const said = VERDICT_WORDS[request.verdict];
    return `Readings from ${words(request.from)} to ${words(request.to)} are ${said}. The results were worked out anew.`;
  });
}

/** Answers a fall of the fouling: it was a cleaning, or it was not. */
export async function answerFallAction(_before: FormOutcome, form: FormData): Promise<FormOutcome> {
  return settle('answerFallAction', form, async (context, { tag, fields }) => {
    const { timeZone } = (await knownUnit(context, tag)).site;
    const request = readFallForm(fields, timeZone);
    await answerFall(context, tag, request);
    return request.answer === 'cleaning'
      ? 'Recorded as a cleaning. The results were worked out anew.'
      : 'Recorded: it was no cleaning. The results were worked out anew.';
  });
}

/** Takes a verdict or an answer back; both stay in the history. */
export async function withdrawJudgementAction(_before: FormOutcome, form: FormData): Promise<FormOutcome> {
  return settle('withdrawJudgementAction', form, async (context, { tag, fields }) => {
    const { kind, ...withdrawal } = readWithdrawal(fields);
    if (kind === 'answer') await withdrawAnswer(context, tag, withdrawal);
    else await withdrawVerdict(context, tag, withdrawal);
    return 'Withdrawn. The results were worked out anew.';
  });
}
