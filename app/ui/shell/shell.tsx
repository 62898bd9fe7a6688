import Link from 'next/link';
import type { ReactNode } from 'react';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { Theme } from '../preferences';
import { MainNav } from './main-nav';
import styles from './shell.module.css';
import { ThemeSwitch } from './theme-switch';
import { UnitsSwitch } from './units-switch';

/** The frame of every page: skip link, wordmark, main navigation, unit system, theme. */
export function Shell({ theme, units, children }: { theme: Theme; units: UnitSystem; children: ReactNode }) {
  return (
    <>
      <a className={styles.skip} href="#main">
        Skip to content
      </a>
      <header className={styles.header}>
        <div className={styles.inner}>
          <Link className={styles.wordmark} href="/" aria-label="Cleanby, to the fleet">
            Cleanby
          </Link>
          <MainNav />
          <div className={styles.switches}>
            <UnitsSwitch saved={units} />
            <ThemeSwitch saved={theme} />
          </div>
        </div>
      </header>
      <main id="main" className={styles.main} tabIndex={-1}>
        {children}
      </main>
    </>
  );
}
