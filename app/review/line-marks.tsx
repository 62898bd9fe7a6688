import { Allowed } from '@/app/access/rights';
import { Button } from '@/app/ui/button/button';
import type { ReviewLine } from '@/lib/contract/review';
import { formatDay } from '@/lib/report/format/time';
import { markInWords } from '@/lib/report/review/review-words';
import { MarkForm } from './mark-form';
import styles from './marks.module.css';

type Props = { tag: string; line: ReviewLine; peopleId: string };

/** What people did about a line so far, oldest first. */
export function MarksMade({ line }: Pick<Props, 'line'>) {
  if (line.marks.length === 0) return null;
  return (
    <ul className={styles.made}>
      {line.marks.map((mark) => (
        <li key={`${mark.at} ${mark.kind}`}>
          {markInWords(mark)} <time dateTime={mark.at}>{whenInWords(mark.at)}</time>
        </li>
      ))}
    </ul>
  );
}

/** Seen with one press; to assign or note, the rest opens. */
export function MarkControls({ tag, line, peopleId }: Props) {
  const about = <span className="unseen">: {line.text}</span>;
  return (
    <Allowed right="review">
      <div className={`${styles.controls} screen-only`}>
        <MarkForm tag={tag} line={line.key} kind={line.isSeen ? 'reopened' : 'seen'}>
          <Button type="submit" weight="quiet">
            {line.isSeen ? 'Open again' : 'Seen'}
            <span className="unseen"> {tag}</span>
            {about}
          </Button>
        </MarkForm>
        <details className={styles.more} name="mark">
          <summary>
            Assign or note<span className="unseen"> {tag}</span>
            {about}
          </summary>
          <div className={styles.fields}>
            <MarkForm tag={tag} line={line.key} kind="assigned">
              <label>
                Assign to
                <input name="text" required maxLength={80} list={peopleId} autoComplete="off" />
              </label>
              <Button type="submit" weight="quiet">
                Assign
              </Button>
            </MarkForm>
            <MarkForm tag={tag} line={line.key} kind="note">
              <label>
                Note
                <input name="text" required maxLength={500} autoComplete="off" />
              </label>
              <Button type="submit" weight="quiet">
                Keep note
              </Button>
            </MarkForm>
          </div>
        </details>
      </div>
    </Allowed>
  );
}

/** "25 Nov, 09:12" from an instant written on the clock of the site. */
function whenInWords(at: string): string {
  return `${formatDay(at.slice(0, 10), { year: false })}, ${at.slice(11, 16)}`;
}
