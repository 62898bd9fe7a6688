'use client';

import { useEffect, useMemo, useState } from 'react';
import { postJson } from '@/app/ui/api/problem';
import type { Fault } from '@/lib/contract/app-error';
import type { UnitFigures } from '@/lib/contract/unit-figures';
import { draftDocument } from '@/lib/report/setup/draft-document';
import { mergeFaults } from '@/lib/report/setup/fault-places';
import type { UnitDraft } from '@/lib/report/setup/unit-draft';

/** Rest after the last keystroke before the server is asked [ms]. */
const REST_MS = 300;

type Said = { errors: Fault[]; figures: UnitFigures | null };

/** What is wrong with a draft and what follows from it, kept up to date while a person types who may save it. */
export function useChecked(draft: UnitDraft, version: number | null, maySave: boolean) {
  const read = useMemo(() => draftDocument(draft), [draft]);
  const [said, setSaid] = useState<Said>({ errors: [], figures: null });

  useEffect(() => {
    if (!maySave) return;
    const running = new AbortController();
    const timer = setTimeout(async () => {
      try {
        const path = '/api/v1/units?check=1';
        const { document } = await postJson<Said>(path, { ...read.document, version }, running.signal);
        if (document !== null) setSaid(document);
      } catch (error) {
        if (!running.signal.aborted) throw error;
      }
    }, REST_MS);
    return () => {
      clearTimeout(timer);
      running.abort();
    };
  }, [read, version, maySave]);

  const faults = useMemo(() => mergeFaults(read.faults, said.errors), [read, said]);
  return { document: read.document, faults, figures: said.figures };
}
