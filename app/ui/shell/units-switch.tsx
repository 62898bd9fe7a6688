'use client';

import { usePathname, useRouter, useSearchParams } from 'next/navigation';
import { useState, useTransition } from 'react';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { Choice } from '../choice/choice';
import { saveCookie } from './save-cookie';

const OPTIONS = [
  { value: 'si', label: 'SI', hint: 'metric units' },
  { value: 'us', label: 'US', hint: 'US customary units' },
] as const;

/** SI or US units on every page; kept as a cookie, and the address stays as it is. */
export function UnitsSwitch({ saved }: { saved: UnitSystem }) {
  const router = useRouter();
  const path = usePathname();
  const address = useSearchParams();
  const [chosen, setChosen] = useState(saved);
  const [, startTransition] = useTransition();
  const stated = address.get('units');
  const shown = stated === 'si' || stated === 'us' ? stated : chosen;
  const choose = (next: UnitSystem) => {
    saveCookie('units', next);
    setChosen(next);
    startTransition(() => {
      if (stated === null) return router.refresh();
      const changed = new URLSearchParams(address);
      changed.set('units', next);
      router.replace(`${path}?${changed}`, { scroll: false });
    });
  };
  return <Choice label="Units" options={OPTIONS} value={shown} onChoose={choose} />;
}
