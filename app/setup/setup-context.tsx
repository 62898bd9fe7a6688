'use client';

import { createContext, useContext } from 'react';
import type { Fault } from '@/lib/contract/app-error';
import type { UnitFigures } from '@/lib/contract/unit-figures';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { fieldId, valueAt } from '@/lib/report/setup/draft-path';
import { faultAt } from '@/lib/report/setup/fault-places';
import type { UnitDraft } from '@/lib/report/setup/unit-draft';

/** What every field of the form works with. */
export type Setup = {
  draft: UnitDraft;
  set: (path: string, value: unknown) => void;
  /** A person has been at this field: what is wrong with it may now be said. */
  touch: (path: string) => void;
  faults: Fault[];
  touched: ReadonlySet<string>;
  /** After a try to save everything is said. */
  isAllShown: boolean;
  figures: UnitFigures | null;
  system: UnitSystem;
  /** Supplies whose prices are stated, by the name of the site. */
  supplyNames: Record<string, string[]>;
};

const SetupContext = createContext<Setup | null>(null);
export const SetupProvider = SetupContext.Provider;

export function useSetup(): Setup {
  const setup = useContext(SetupContext);
  if (setup === null) throw new Error('a field stands outside the form');
  return setup;
}

/**
 * One field by its path in the draft, such as `design.hotIn`; the document calls it `unit.design.hotIn`. `faultPath` where
 * the document calls it otherwise.
 */
export function useField(path: string, faultPath = path) {
  const { draft, set, touch, touched, isAllShown, faults } = useSetup();
  const isShown = isAllShown || touched.has(path);
  return {
    id: fieldId(documentPath(faultPath)),
    value: valueAt(draft, path),
    set: (value: unknown) => set(path, value),
    onBlur: () => touch(path),
    error: isShown ? faultAt(faults, documentPath(faultPath)) : null,
  };
}

function documentPath(path: string): string {
  return path.startsWith('site.') ? path : `unit.${path}`;
}
