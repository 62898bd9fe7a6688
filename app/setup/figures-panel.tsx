'use client';

import { Value } from '@/app/ui/value/value';
import { figuresView } from '@/lib/report/setup/figures-view';
import styles from './setup.module.css';
import { useSetup } from './setup-context';

/** What follows from the fields so far, beside them. */
export function FiguresPanel() {
  const { draft, figures, system } = useSetup();
  const view = figuresView(figures, draft, system);
  return (
    <aside className={styles.panel} aria-label="What follows from the datasheet">
      <h2>What follows</h2>
      <dl className={styles.figures}>
        {view.rows.map(({ label, figure, note }) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>
              <Value figure={figure} missing="not yet" />
              {note === null ? null : <span className={styles.said}>{note}</span>}
            </dd>
          </div>
        ))}
      </dl>
      {view.advice.map((sentence) => (
        <p key={sentence} className={styles.notable}>
          {sentence}
        </p>
      ))}
    </aside>
  );
}
