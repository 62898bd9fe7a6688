import type { ReactNode } from 'react';
import styles from './setup.module.css';

/** A titled group of fields; `lead` says what it is for. */
export function Part({ title, lead, children }: { title: string; lead?: ReactNode; children: ReactNode }) {
  return (
    <fieldset className={styles.part}>
      <legend>
        <h2>{title}</h2>
      </legend>
      {lead ? <p className={styles.lead}>{lead}</p> : null}
      <div className={styles.fields}>{children}</div>
    </fieldset>
  );
}

/** A group that most datasheets leave to the defaults, closed until it is wanted or holds an error. */
export function OptionalPart({
  title,
  said,
  isOpen,
  children,
}: {
  title: string;
  /** What stands in it, in few words, while it is closed. */
  said: string;
  isOpen: boolean;
  children: ReactNode;
}) {
  return (
    <details className={styles.optional} open={isOpen || undefined}>
      <summary>
        <h2>{title}</h2> <span className={styles.said}>{said}</span>
      </summary>
      <div className={styles.fields}>{children}</div>
    </details>
  );
}
