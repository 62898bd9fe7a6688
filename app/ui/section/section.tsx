import type { ReactNode } from 'react';
import styles from './section.module.css';

type Props = {
  /** Anchor; also ties the heading to the region. */
  id: string;
  title: string;
  /** One sentence under the heading. */
  lead?: ReactNode;
  /** Controls at the right of the heading. */
  actions?: ReactNode;
  children: ReactNode;
};

/** A titled part of a page. */
export function Section({ id, title, lead, actions, children }: Props) {
  return (
    <section id={id} className={styles.section} aria-labelledby={`${id}-title`}>
      <div className={styles.head}>
        <h2 id={`${id}-title`}>{title}</h2>
        {actions ? <div className={styles.actions}>{actions}</div> : null}
      </div>
      {lead ? <div className={styles.lead}>{lead}</div> : null}
      {children}
    </section>
  );
}
