import Link from 'next/link';
import type { ReactNode } from 'react';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { Theme } from '../preferences';
import { MainNav } from './main-nav';
import styles from './shell.module.css';
import { ThemeSwitch } from './theme-switch';
import { UnitsSwitch } from './units-switch';

type Props = {
  theme: Theme;
  units: UnitSystem;
  /** Paths of the places that whoever looks may open; none for somebody not signed in. */
  open: string[];
  /** Who is signed in, and the way out. */
  person: ReactNode;
  children: ReactNode;
};

/** The frame of every page: skip link, wordmark, main navigation, unit system, theme, who is signed in. */
export function Shell({ theme, units, open, person, children }: Props) {
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
          <MainNav open={open} />
          <div className={styles.switches}>
            <UnitsSwitch saved={units} />
            <ThemeSwitch saved={theme} />
            {person}
          </div>
        </div>
      </header>
      <main id="main" className={styles.main} tabIndex={-1}>
        {children}
      </main>
    </>
  );
}
