'use client';

import Link from 'next/link';
import { usePathname } from 'next/navigation';
import styles from './shell.module.css';

const LOOKING_BACK = ['/cleanings', '/record', '/health'];

const PLACES = [
  { href: '/', label: 'Fleet', isHere: (path: string) => path === '/' || path.startsWith('/units') },
  { href: '/review', label: 'Review', isHere: (path: string) => path.startsWith('/review') },
  { href: '/plan', label: 'Plan', isHere: (path: string) => path.startsWith('/plan') },
  { href: '/energy', label: 'Energy', isHere: (path: string) => path.startsWith('/energy') },
  { href: '/cleanings', label: 'Looking back', isHere: (path: string) => LOOKING_BACK.includes(path) },
  { href: '/changes', label: 'Changes', isHere: (path: string) => path.startsWith('/changes') },
  { href: '/import', label: 'Import', isHere: (path: string) => path.startsWith('/import') },
  {
    href: '/new-unit',
    label: 'Add a unit',
    isHere: (path: string) => path === '/new-unit' || path === '/fleet-sheet',
  },
  {
    href: '/people',
    label: 'People',
    isHere: (path: string) => path.startsWith('/people') || path.startsWith('/tokens'),
  },
];

/** The places that whoever looks at the page may open. */
export function MainNav({ open }: { open: string[] }) {
  const path = usePathname();
  const places = PLACES.filter(({ href }) => open.includes(href));
  if (places.length === 0) return null;
  return (
    <nav className={styles.nav} aria-label="Main">
      {places.map(({ href, label, isHere }) => (
        <Link
          key={href}
          href={href}
          aria-current={path === href ? 'page' : isHere(path) ? 'true' : undefined}
        >
          {label}
        </Link>
      ))}
    </nav>
  );
}
