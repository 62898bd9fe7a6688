import type { ReactNode } from 'react';
import styles from './breadcrumb.module.css';

/** The way up from a page, level by level; the last part is the page itself. Not printed. */
export function Breadcrumb({ children }: { children: ReactNode }) {
  return <p className={`${styles.breadcrumb} screen-only`}>{children}</p>;
}
