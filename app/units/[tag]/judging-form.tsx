'use client';

import { useActionState } from 'react';
import { Button } from '@/app/ui/button/button';
import type { JudgingView } from '@/lib/report/unit/judging-view';
import styles from './entry-form.module.css';
import { NOTHING_YET } from './form-outcome';
import { judgePeriodAction } from './judging-actions';
import { OutcomeField, OutcomeNotice } from './outcome-field';
import { RadioChoice } from './radio-choice';

/** From when to when, left out or counted in, and why. */
export function JudgingForm({ tag, timeZone, from, to }: Omit<JudgingView, 'history' | 'filledWith'>) {
  const [outcome, submit, isPending] = useActionState(judgePeriodAction, NOTHING_YET);
  const field = { form: 'judge', outcome };
  const choice = { form: 'judge', name: 'verdict' };
  const verdict = outcome.kind === 'refused' ? outcome.fields.verdict : 'exclude';
  return (
    <form action={submit} className={styles.form}>
      <input type="hidden" name="tag" value={tag} />
      <OutcomeField
        {...field}
        name="from"
        label="From"
        hint={`local time, ${timeZone}`}
        type="datetime-local"
        required
        defaultValue={from}
      />
      <OutcomeField
        {...field}
        name="to"
        label="To"
        hint="this instant itself no longer"
        type="datetime-local"
        required
        defaultValue={to}
      />
      <fieldset className={styles.choices}>
        <legend>The readings of this period</legend>
        <RadioChoice
          {...choice}
          value="exclude"
          label="Leave out"
          effect="None of them counts, whatever the checks say."
          isChosen={verdict !== 'include'}
        />
        <RadioChoice
          {...choice}
          value="include"
          label="Count in"
          effect="What the checks left out counts, as far as U can be worked out from it: a value that is missing stays missing."
          isChosen={verdict === 'include'}
        />
      </fieldset>
      <OutcomeField
        {...field}
        name="note"
        label="Why"
        hint="Example: hot meter out for calibration"
        maxLength={500}
        required
        isWide
      />
      <div className={styles.end}>
        <Button type="submit" weight="primary" disabled={isPending}>
          {isPending ? 'Working out …' : 'Judge this period'}
        </Button>
      </div>
      <OutcomeNotice outcome={outcome} />
    </form>
  );
}
