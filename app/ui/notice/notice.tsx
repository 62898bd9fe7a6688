import type { ReactNode } from 'react';
import styles from './notice.module.css';

/** `plain` informs; `done` confirms; `problem` says what went wrong and what to do, and is read out at once. */
export type NoticeKind = 'plain' | 'done' | 'problem';

export function Notice({
  kind = 'plain',
  title,
  children,
}: {
  kind?: NoticeKind;
  title?: string;
  children: ReactNode;
}) {
  return (
    <div className={`${styles.notice} ${styles[kind]}`} role={kind === 'problem' ? 'alert' : 'status'}>
      {title ? <p className={styles.title}>{title}</p> : null}
      <div>{children}</div>
    </div>
  );
}
