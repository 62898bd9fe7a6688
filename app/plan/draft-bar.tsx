import type { ReactNode } from 'react';
import { Button } from '@/app/ui/button/button';
import { countOf } from '@/lib/report/format/words';
import { changeInWords } from '@/lib/report/plan/plan-words';
import styles from './picture.module.css';
import type { Stage } from './stage';

/** Stays in sight: what the changes so far cost and break, what is in the hand, the way back. */
export function DraftBar({ stage, children }: { stage: Stage; children?: ReactNode }) {
  const { board, desk, dragging } = stage;
  const { base } = board;
  return (
    <div className={`${styles.draftBar} screen-only`}>
      <p className={styles.draftWords} role="status">
        {base === null ? 'No plan yet.' : changeWords(stage)}
      </p>
      {dragging.drag === null ? (
        <span className={styles.draftTools}>
          {children}
          <Button weight="quiet" disabled={board.past.length === 0} onClick={board.undo}>
            Undo
          </Button>
          <Button
            weight="quiet"
            disabled={base === null || board.past.length === 0}
            onClick={() => base !== null && board.begin(base)}
          >
            Back to the {base?.kind ?? 'solved'} plan
          </Button>
        </span>
      ) : (
        <span className={styles.inHand}>
          {dragging.drag.over.day}, {dragging.drag.over.where},{' '}
          {changeInWords(dragging.drag.over.change, desk.currency)}
        </span>
      )}
    </div>
  );
}

function changeWords({ board, desk, shown }: Stage) {
  const { base, basePrice } = board;
  const change = shown.price.cost.total - (basePrice?.cost.total ?? 0);
  const { clashes } = shown.price;
  const isMoved = board.isChanged || shown.draft !== board.draft;
  return (
    <>
      <strong>
        {isMoved
          ? `${changeInWords(change, desk.currency)} against the ${base?.kind} plan`
          : `As ${base?.kind === 'accepted' ? 'accepted' : 'solved'}`}
      </strong>
      {clashes.length === 0 ? (
        '; nothing clashes'
      ) : (
        <span className={styles.overText}>
          {' '}
          ■ {clashes[0]!.words}
          {clashes.length === 1 ? '' : `; ${countOf(clashes.length - 1, 'more clash', 'more clashes')}`}
        </span>
      )}
    </>
  );
}
