'use client';

import { usePathname, useRouter, useSearchParams } from 'next/navigation';
import { useMemo, useTransition } from 'react';
import { type FleetAddress, readFleetAddress, writeFleetAddress } from '@/lib/report/fleet-address';

export type ChangeAddress = (change: Partial<FleetAddress>) => void;

/**
 * The fleet's address and a way to change it. A new period is another page with an axis of its own; for everything else only the
 * address bar changes, and the rows that fit it are fetched.
 */
export function useFleetAddress(): { address: FleetAddress; change: ChangeAddress; isWaiting: boolean } {
  const router = useRouter();
  const path = usePathname();
  const search = useSearchParams();
  const [isWaiting, startTransition] = useTransition();
  const address = useMemo(() => readFleetAddress(Object.fromEntries(search)), [search]);
  const change: ChangeAddress = (changes) => {
    // The bar is read afresh: two changes may fall into one render.
    const current = new URLSearchParams(window.location.search);
    const query = writeFleetAddress(
      { ...readFleetAddress(Object.fromEntries(current)), from: 0, ...changes },
      current,
    ).toString();
    const next = query === '' ? path : `${path}?${query}`;
    if (changes.back === undefined && changes.ahead === undefined)
      window.history.replaceState(null, '', next);
    else startTransition(() => router.replace(next, { scroll: false }));
  };
  return { address, change, isWaiting };
}
