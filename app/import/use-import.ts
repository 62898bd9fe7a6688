'use client';

import { useRouter } from 'next/navigation';
import { useRef, useState } from 'react';
import type { Problem } from '@/app/ui/api/problem';
import type { ImportPreview } from '@/lib/contract/import-preview';
import type { ImportReport } from '@/lib/contract/import-report';
import type { Mapping } from '@/lib/contract/mapping';
import { reportHref } from '@/lib/report/import/import-address';
import { recalledMapping, rememberMapping } from './remembered-mapping';
import { type ReadingOptions, sendFile, uploadPath } from './send-readings';

/** The beginning of a file that is looked at [bytes]; the server takes no more for a preview. */
const PREVIEW_BYTES = 2 ** 21;

export type ImportStep =
  | { at: 'choose' }
  | { at: 'looking'; file: File }
  | { at: 'looked'; file: File; preview: ImportPreview; expected: ImportReport | null }
  | { at: 'refused'; file: File; problem: Problem; wasSending: boolean }
  | { at: 'sending'; file: File; sent: number };

type TakenReport = ImportReport & { isAnalysed: boolean };

/** From a chosen file to its report: look, count in the background, send with progress, cancel. */
export function useImport(firstZone: string) {
  const router = useRouter();
  const [step, setStep] = useState<ImportStep>({ at: 'choose' });
  const [timeZone, setTimeZone] = useState(firstZone);
  const [mapping, setMapping] = useState<Mapping | null>(null);
  const running = useRef<AbortController | null>(null);

  const begin = () => {
    running.current?.abort();
    running.current = new AbortController();
    return running.current.signal;
  };

  const look = async (file: File, changes: Partial<Omit<ReadingOptions, 'name'>> = {}) => {
    const options: ReadingOptions = { name: file.name, timeZone, mapping, ...changes };
    const signal = begin();
    setTimeZone(options.timeZone);
    setMapping(options.mapping);
    setStep({ at: 'looking', file });
    const isCut = file.size > PREVIEW_BYTES;
    const path = uploadPath('/api/v1/imports/preview', options, isCut ? { cut: '1' } : {});
    try {
      const answer = await sendFile<ImportPreview>(path, file.slice(0, PREVIEW_BYTES), { signal });
      if (signal.aborted) return;
      if (answer.problem !== null) {
        setStep({ at: 'refused', file, problem: answer.problem, wasSending: false });
        return;
      }
      const preview = answer.document;
      // A header nobody can read yet, or a long file whose names nobody knows: perhaps they were explained before.
      const isUnclear = preview.faults.length > 0 || preview.units.length === 0;
      const recalled = options.mapping === null && isUnclear ? recalledMapping(preview) : null;
      if (recalled !== null) {
        look(file, { ...options, mapping: recalled });
        return;
      }
      setStep({ at: 'looked', file, preview, expected: null });
      if (preview.faults.length === 0 && preview.units.length > 0)
        await count(file, options, { preview, signal });
    } catch (error) {
      if (!signal.aborted) throw error;
    }
  };

  /** What an import would change, counted without storing it. */
  const count = async (
    file: File,
    options: ReadingOptions,
    { preview, signal }: { preview: ImportPreview; signal: AbortSignal },
  ) => {
    const path = uploadPath('/api/v1/imports', options, { check: '1' });
    const { document } = await sendFile<ImportReport>(path, file, { signal });
    if (!signal.aborted && document !== null) setStep({ at: 'looked', file, preview, expected: document });
  };

  const send = async (file: File, preview: ImportPreview) => {
    const signal = begin();
    setStep({ at: 'sending', file, sent: 0 });
    if (mapping !== null) rememberMapping(preview, mapping);
    const path = uploadPath('/api/v1/imports', { name: file.name, timeZone, mapping });
    const onProgress = (sent: number) => setStep({ at: 'sending', file, sent });
    try {
      const { document, problem } = await sendFile<TakenReport>(path, file, { signal, onProgress });
      if (problem !== null) setStep({ at: 'refused', file, problem, wasSending: true });
      else router.push(reportHref({ ...document, batch: document.batch ?? 0 }));
    } catch (error) {
      if (!signal.aborted) throw error;
    }
  };

  const cancel = () => {
    const file = 'file' in step ? step.file : null;
    begin();
    if (file === null || step.at !== 'sending') setStep({ at: 'choose' });
    else look(file);
  };

  return { step, timeZone, mapping, look, send, cancel };
}
