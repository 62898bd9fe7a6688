'use client';

import { useRight } from '@/app/access/rights';

/** What saving does; to those who may not save, who may. */
export function EditLead({ version }: { version: number }) {
  if (!useRight('describe')) return <p>Engineers and administrators change datasheets; you may look.</p>;
  return (
    <p>
      Saving keeps this version and makes version {version + 1}; the results of the readings it holds for are
      then worked out anew.
    </p>
  );
}
