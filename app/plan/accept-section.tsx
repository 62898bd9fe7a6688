'use client';

import Link from 'next/link';
import { useRouter } from 'next/navigation';
import { type FormEvent, useState } from 'react';
import { type Problem, postJson } from '@/app/ui/api/problem';
import { ProblemNotice } from '@/app/ui/api/problem-notice';
import { Button } from '@/app/ui/button/button';
import { described, Field } from '@/app/ui/form/field';
import { Notice } from '@/app/ui/notice/notice';
import { Section } from '@/app/ui/section/section';
import { saveCookie } from '@/app/ui/shell/save-cookie';
import { countOf } from '@/lib/report/format/words';
import { lockedCleanings, type PlanDraft, spotsOf } from '@/lib/report/plan/draft-plan';
import { startInZone, tagAt } from '@/lib/report/plan/plan-desk';
import styles from './plan.module.css';
import type { Stage } from './stage';

/** HTTP status of a schedule that breaks constraints nobody has accepted. */
const CONFLICT = 409;

/** Who uses this browser, and the cookie that remembers it. */
export type Person = { name: string; cookie: string };

type Props = { stage: Stage; person: Person; isSolving: boolean };

/** Takes the plan on: each cleaning becomes dated work, under a name. */
export function AcceptSection({ stage, person, isSolving }: Props) {
  const { board } = stage;
  const { accept, accepted, problem, isSending } = useAccept(stage);
  const [nameError, setNameError] = useState<string | null>(null);
  if (board.base === null) return null;
  const told = toldBefore(board.price.clashes, problem);
  const count = spotsOf(board.draft).length;
  const onSubmit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const stated = new FormData(event.currentTarget);
    const by = `${stated.get('by')}`.trim();
    setNameError(by === '' ? 'Say who takes the plan on' : null);
    if (by === '') return;
    saveCookie(person.cookie, encodeURIComponent(by));
    void accept({ by, note: `${stated.get('note')}`.trim(), acceptClashes: stated.get('clashes') === 'on' });
  };
  return (
    <Section
      id="accept"
      title="Accept the plan"
      lead={`Its ${countOf(count, 'cleaning')} become dated work, in place of the open work of an earlier plan.`}
    >
      <form className={styles.form} onSubmit={onSubmit} aria-busy={isSending} noValidate>
        <Field id="accept-by" label="Your name" error={nameError}>
          <input
            {...described('accept-by', nameError)}
            name="by"
            defaultValue={person.name}
            maxLength={80}
            autoComplete="name"
          />
        </Field>
        <Field id="accept-note" label="Note" hint="optional" error={null} isWide>
          <input {...described('accept-note', null, 'optional')} name="note" maxLength={500} />
        </Field>
        {told.length === 0 ? null : (
          <label className={styles.check}>
            <input type="checkbox" name="clashes" />
            Accept it although {countOf(told.length, 'thing clashes', 'things clash')}: {told.join('; ')}
          </label>
        )}
        <Button type="submit" weight="primary" disabled={isSending || isSolving || count === 0}>
          Accept {countOf(count, 'cleaning')}
        </Button>
      </form>
      {problem === null ? null : <ProblemNotice title="The plan was not accepted" problem={problem} />}
      {accepted === board.draft ? (
        <Notice kind="done" title="Accepted">
          <p>
            {countOf(count, 'cleaning')} are dated work now.{' '}
            <Link href="/plan/work">Go to the work list</Link> to print it or to put it into a calendar.
          </p>
        </Notice>
      ) : null}
    </Section>
  );
}

/** What a planner must know of before taking the plan on: seen here, and what the server found beyond that. */
function toldBefore(clashes: readonly { words: string }[], problem: Problem | null): string[] {
  const found = problem?.status === CONFLICT ? problem.errors.map(({ message }) => message) : [];
  return [...new Set([...clashes.map(({ words }) => words), ...found])];
}

type Acceptance = { by: string; note: string; acceptClashes: boolean };

function useAccept({ view, desk, board }: Stage) {
  const router = useRouter();
  const [accepted, setAccepted] = useState<PlanDraft | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [isSending, setSending] = useState(false);
  const accept = async ({ by, note, acceptClashes }: Acceptance) => {
    setSending(true);
    const { draft } = board;
    const answer = await postJson('/api/v1/plan/accept', {
      request: { ...view.request, locked: lockedCleanings(desk, draft) },
      cleanings: spotsOf(draft).map((spot) => ({
        tag: tagAt(desk, spot.unit),
        start: startInZone(desk, spot),
      })),
      by,
      ...(note === '' ? {} : { note }),
      acceptClashes,
    });
    setSending(false);
    setProblem(answer.problem);
    if (answer.problem !== null) return;
    setAccepted(draft);
    board.forget();
    router.refresh();
  };
  return { accept, accepted, problem, isSending };
}
