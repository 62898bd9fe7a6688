import { Section } from '@/app/ui/section/section';
import styles from './plan.module.css';
import type { Stage } from './stage';

/** Every constraint the plan breaks as it stands, with the way to its rows. */
export function ClashSection({ stage: { board } }: { stage: Stage }) {
  const { clashes } = board.price;
  if (board.base === null || clashes.length === 0) return null;
  return (
    <Section
      id="clashes"
      title="What clashes"
      lead="Move a cleaning, lock what must stay and solve the rest, or change the calendar below."
    >
      <ul className={styles.clashes}>
        {clashes.map(({ kind, words, tags }) => (
          <li key={`${kind} ${words}`}>
            <span className={styles.overText}>■</span> {words}:{' '}
            {tags.map((tag, nth) => (
              <span key={tag}>
                {nth === 0 ? '' : ', '}
                <a href={`#row-${tag}`} aria-label={`To the row of ${tag}`}>
                  {tag}
                </a>
              </span>
            ))}
          </li>
        ))}
      </ul>
    </Section>
  );
}
