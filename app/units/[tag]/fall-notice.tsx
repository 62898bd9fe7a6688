'use client';

import Link from 'next/link';
import { useActionState, useState } from 'react';
import { useRight } from '@/app/access/rights';
import { Button } from '@/app/ui/button/button';
import { Notice } from '@/app/ui/notice/notice';
import { ANSWER_EFFECTS, type FallQuestion } from '@/lib/report/unit/fall-questions';
import type { CleaningForm } from '@/lib/report/unit-view';
import styles from './entry-form.module.css';
import { NOTHING_YET } from './form-outcome';
import { answerFallAction } from './judging-actions';
import { OutcomeField, OutcomeNotice } from './outcome-field';
import { RadioChoice } from './radio-choice';

type Props = { question: FallQuestion; cleaning: CleaningForm };
type Answer = keyof typeof ANSWER_EFFECTS;

const ANSWERS: { answer: Answer; label: string }[] = [
  { answer: 'cleaning', label: 'It was cleaned' },
  { answer: 'not-cleaning', label: 'It was not cleaned' },
];

/** A fall of the fouling that no recorded cleaning explains, put to whoever knows. */
export function FallNotice({ question, cleaning }: Props) {
  const [answer, setAnswer] = useState<Answer | null>(null);
  const [outcome, submit, isPending] = useActionState(answerFallAction, NOTHING_YET);
  const kept = outcome.kind === 'refused' ? outcome.fields.answer : null;
  const form = `fall-${question.day}`;
  const field = { form, outcome };
  const mayAnswer = useRight('judge');
  return (
    <Notice title={`△ ${question.title}`}>
      <p>
        {question.sentence} {question.standing}{' '}
        <Link className="screen-only" href={question.showHref}>
          Show on the charts
        </Link>
      </p>
      {mayAnswer ? (
        <form
          action={submit}
          className={`${styles.form} ${styles.answer} screen-only`}
          aria-label={question.title}
        >
          <input type="hidden" name="tag" value={cleaning.tag} />
          <input type="hidden" name="day" value={question.day} />
          <fieldset className={styles.choices}>
            <legend className="unseen">Was it cleaned?</legend>
            {ANSWERS.map((choice) => (
              <RadioChoice
                key={choice.answer}
                form={form}
                name="answer"
                value={choice.answer}
                label={choice.label}
                effect={ANSWER_EFFECTS[choice.answer]}
                isChosen={choice.answer === kept}
                onChoose={() => setAnswer(choice.answer)}
              />
            ))}
          </fieldset>
          {answer === 'cleaning' ? <HowCleaned {...field} at={question.at} cleaning={cleaning} /> : null}
          {answer === null ? null : (
            <>
              <OutcomeField
                {...field}
                name="note"
                label={answer === 'cleaning' ? 'Note' : 'What it was'}
                hint={answer === 'cleaning' ? undefined : 'Example: hot meter replaced'}
                maxLength={500}
              />
              <div className={styles.end}>
                <Button type="submit" weight="primary" disabled={isPending}>
                  {isPending ? 'Working out …' : 'Answer'}
                </Button>
              </div>
            </>
          )}
          <OutcomeNotice outcome={outcome} />
        </form>
      ) : (
        <p className="screen-only">An engineer says whether it was a cleaning.</p>
      )}
    </Notice>
  );
}

function HowCleaned({
  at,
  cleaning,
  ...field
}: { form: string; outcome: Parameters<typeof OutcomeField>[0]['outcome'] } & {
  at: string;
  cleaning: CleaningForm;
}) {
  return (
    <>
      <OutcomeField
        {...field}
        name="at"
        label="Back in service"
        hint={`local time, ${cleaning.timeZone}; as it stands, the middle between the readings before and after`}
        type="datetime-local"
        defaultValue={at}
      />
      <OutcomeField {...field} name="method" label="Method" maxLength={120} defaultValue={cleaning.method} />
      <OutcomeField
        {...field}
        name="cost"
        label="Cost"
        hint={cleaning.currency}
        inputMode="decimal"
        defaultValue={cleaning.cost}
      />
    </>
  );
}
