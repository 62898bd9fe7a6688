'use client';

import { createContext, type ReactNode, useContext } from 'react';
import type { Right } from '@/lib/auth/rights';

const Rights = createContext<readonly Right[]>([]);

/** Tells the parts of a page what whoever looks at it may do. The server asks again at every change. */
export function RightsProvider({ rights, children }: { rights: readonly Right[]; children: ReactNode }) {
  return <Rights value={rights}>{children}</Rights>;
}

/** Whether whoever looks at the page has a right. */
export function useRight(right: Right): boolean {
  return useContext(Rights).includes(right);
}

/** Shows its children to those with the right only: nobody is offered a form that would be refused. */
export function Allowed({ right, children }: { right: Right; children: ReactNode }) {
  return useRight(right) ? children : null;
}
