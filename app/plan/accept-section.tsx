'use client';

import Link from 'next/link';
import { useRouter } from 'next/navigation';
import { type FormEvent, useState } from 'react';
import { useRight } from '@/app/access/rights';
import { type Problem, postJson } from '@/app/ui/api/problem';
import { ProblemNotice } from '@/app/ui/api/problem-notice';
import { Button } from '@/app/ui/button/button';
import { described, Field } from '@/app/ui/form/field';
import { Notice } from '@/app/ui/notice/notice';
import { Section } from '@/app/ui/section/section';
import { countOf } from '@/lib/report/format/words';
import { lockedCleanings, type PlanDraft, spotsOf } from '@/lib/report/plan/draft-plan';
import { startInZone, tagAt } from '@/lib/report/plan/plan-desk';
import styles from './plan.module.css';
import type { Stage } from './stage';

/** HTTP status of a schedule that breaks constraints nobody has accepted. */
const CONFLICT = 409;
/** Field that says which accepted plan was seen: another one is in force by now. */
const SEEN = 'after';

/** Under whose name a plan is taken on, and the newest accepted plan that the page shows; 0 where there is none. */
export type Acceptance = { person: string; after: number };

type Props = { stage: Stage; acceptance: Acceptance; isSolving: boolean };

/** Takes the plan on: each cleaning becomes dated work, under the name of whoever is signed in. */
export function AcceptSection({ stage, acceptance, isSolving }: Props) {
  const { board } = stage;
  const { accept, accepted, problem, isSending } = useAccept(stage, acceptance.after);
  const mayAccept = useRight('plan');
  if (board.base === null || !mayAccept) return null;
  const told = toldBefore(board.price.clashes, problem);
  const count = spotsOf(board.draft).length;
  const onSubmit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const stated = new FormData(event.currentTarget);
    void accept({ note: `${stated.get('note')}`.trim(), acceptClashes: stated.get('clashes') === 'on' });
  };
  return (
    <Section
      id="accept"
      title="Accept the plan"
      lead={`Its ${countOf(count, 'cleaning')} become dated work, in place of the open work of an earlier plan.`}
    >
      <form className={styles.form} onSubmit={onSubmit} aria-busy={isSending} noValidate>
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
        <span className={styles.as}>as {acceptance.person}</span>
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
  const clashing = problem?.status === CONFLICT ? problem.errors.filter(({ field }) => field !== SEEN) : [];
  const found = clashing.map(({ message }) => message);
  return [...new Set([...clashes.map(({ words }) => words), ...found])];
}

type Stated = { note: string; acceptClashes: boolean };

function useAccept({ view, desk, board }: Stage, after: number) {
  const router = useRouter();
  const [accepted, setAccepted] = useState<PlanDraft | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [isSending, setSending] = useState(false);
  const accept = async ({ note, acceptClashes }: Stated) => {
    setSending(true);
    const { draft } = board;
    const answer = await postJson('/api/v1/plan/accept', {
      request: { ...view.request, locked: lockedCleanings(desk, draft) },
      cleanings: spotsOf(draft).map((spot) => ({
        tag: tagAt(desk, spot.unit),
        start: startInZone(desk, spot),
      })),
      after,
      ...(note === '' ? {} : { note }),
      acceptClashes,
    });
    setSending(false);
    setProblem(answer.problem);
    if (answer.problem !== null) {
      // The page then knows the plan of the other; accepting once more puts this one in its place.
      if (answer.problem.errors.some(({ field }) => field === SEEN)) router.refresh();
      return;
    }
    setAccepted(draft);
    board.forget();
    router.refresh();
  };
  return { accept, accepted, problem, isSending };
}
