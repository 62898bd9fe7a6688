import Link from 'next/link';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { countOf } from '@/lib/report/format/words';
import { confidenceInWords, headInWords, partsInWords, solvedInWords } from '@/lib/report/plan/plan-words';
import type { Stage } from './stage';

/** The plan in words: how many cleanings, what it costs, what clashes, how good it is, who took it on. */
export function PlanHead({ stage }: { stage: Stage }) {
  const { view, desk, board } = stage;
  const { price, base } = board;
  return (
    <PageHeader title="Cleaning plan" context={`${view.site} · today ${view.today}`}>
      {base === null ? (
        <p>
          <strong>No plan yet.</strong> It places the cleanings of {countOf(view.rows.length, 'unit')} where
          they cost least, each before its limit at {confidenceInWords(desk.input.confidence)}.
        </p>
      ) : (
        <>
          <p>
            <strong>{headInWords(price, desk)}</strong>: {partsInWords(price, desk.currency)}
            {price.clashes.length === 0 ? '; nothing clashes.' : '; '}
            {price.clashes.length === 0 ? null : (
              <a href="#clashes">{countOf(price.clashes.length, 'clash', 'clashes')}.</a>
            )}
          </p>
          {base.kind === 'solved' ? <p>{solvedInWords(base.result)}</p> : null}
        </>
      )}
      {view.accepted === null ? null : <Accepted stage={stage} />}
    </PageHeader>
  );
}

function Accepted({ stage: { view, board } }: { stage: Stage }) {
  const { by, at, past } = view.accepted!;
  const lost = board.base?.kind === 'accepted' ? board.base.lost : [];
  return (
    <p>
      {board.base?.kind === 'accepted' ? 'This is the plan' : 'A plan was'} accepted by {by} on {at}
      {board.base?.kind === 'accepted' ? ', at today’s figures' : ''}
      {past === 0 ? '' : `; ${countOf(past, 'cleaning')} of it lie${past === 1 ? 's' : ''} in the past`}
      {lost.length === 0 ? '' : `; no longer possible where it was: ${lost.map(({ tag }) => tag).join(', ')}`}
      . Its dated work is on the <Link href="/plan/work">work list</Link>.
    </p>
  );
}
