'use client';

import Link from 'next/link';
import { usePathname } from 'next/navigation';
import styles from './tabs.module.css';

const TABS = [
  { href: '/cleanings', label: 'Cleanings' },
  { href: '/record', label: 'Past projections' },
  { href: '/health', label: 'Data health' },
];

/** From one of the pages that look back to the others. */
export function Tabs() {
  const path = usePathname();
  return (
    <nav className={`${styles.tabs} screen-only`} aria-label="Looking back">
      {TABS.map(({ href, label }) => (
        <Link key={href} href={href} aria-current={path === href ? 'page' : undefined}>
          {label}
        </Link>
      ))}
    </nav>
  );
}
