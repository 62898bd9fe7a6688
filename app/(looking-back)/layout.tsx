import type { ReactNode } from 'react';
import styles from './layout.module.css';
import { Tabs } from './tabs';

/** Three pages that look back: what cleanings did, how past projections did, how good the data were. */
export default function Layout({ children }: { children: ReactNode }) {
  return (
    <div className={`print-wide ${styles.page}`}>
      <Tabs />
      {children}
    </div>
  );
}
