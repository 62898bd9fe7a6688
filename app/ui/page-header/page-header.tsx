import type { ReactNode } from 'react';
import styles from './page-header.module.css';

type Props = {
  title: ReactNode;
  /** Beside the title in small letters: what, where, as of when. */
  context?: ReactNode;
  /** The sentence a person came for. */
  children?: ReactNode;
  actions?: ReactNode;
};

/** The top of a page: title, context and the one sentence that answers the reader's question. */
export function PageHeader({ title, context, children, actions }: Props) {
  return (
    <div className={styles.header}>
      <div className={styles.line}>
        <h1>{title}</h1>
        {context ? <p className={styles.context}>{context}</p> : null}
        {actions ? <div className={styles.actions}>{actions}</div> : null}
      </div>
      {children ? <div className={styles.body}>{children}</div> : null}
    </div>
  );
}
