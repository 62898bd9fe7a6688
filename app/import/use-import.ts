'use client';

import { useRouter } from 'next/navigation';
import { useRef, useState } from 'react';
import { getJson, type Problem } from '@/app/ui/api/problem';
import type { ImportPreview } from '@/lib/contract/import-preview';
import type { ImportReport } from '@/lib/contract/import-report';
import type { SavedMapping } from '@/lib/contract/saved-mapping';
import type { TimeFormat } from '@/lib/contract/time-format';
import { reportHref } from '@/lib/report/import/import-address';
import { NO_MAPPING, type UsedMapping } from './mapping/used-mapping';
import { previewPart } from './preview-part';
import { type ReadingOptions, sendFile, uploadPath } from './send-readings';

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
  const [timeFormat, setTimeFormat] = useState<TimeFormat | ''>('');
  const [used, setUsed] = useState<UsedMapping>(NO_MAPPING);
  const running = useRef<AbortController | null>(null);

  const begin = () => {
    running.current?.abort();
    running.current = new AbortController();
    return running.current.signal;
  };

  const look = async (file: File, changes: Partial<Omit<ReadingOptions, 'name'>> = {}) => {
    const options: ReadingOptions = { name: file.name, timeZone, timeFormat, used, ...changes };
    const signal = begin();
    setTimeZone(options.timeZone);
    setTimeFormat(options.timeFormat);
    setUsed(options.used);
    setStep({ at: 'looking', file });
    const { part, isCut } = await previewPart(file);
    if (signal.aborted) return;
    const path = uploadPath('/api/v1/imports/preview', options, isCut ? { cut: '1' } : {});
    try {
      const answer = await sendFile<ImportPreview>(path, part, { signal });
      if (signal.aborted) return;
      if (answer.problem !== null) {
        setStep({ at: 'refused', file, problem: answer.problem, wasSending: false });
        return;
      }
      const preview = answer.document;
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

  const send = async (file: File) => {
    const signal = begin();
    setStep({ at: 'sending', file, sent: 0 });
    const path = uploadPath('/api/v1/imports', { name: file.name, timeZone, timeFormat, used });
    const onProgress = (sent: number) => setStep({ at: 'sending', file, sent });
    try {
      const { document, problem } = await sendFile<TakenReport>(path, file, { signal, onProgress });
      if (problem !== null) setStep({ at: 'refused', file, problem, wasSending: true });
      else router.push(reportHref({ ...document, batch: document.batch ?? 0 }));
    } catch (error) {
      if (!signal.aborted) throw error;
    }
  };

  /** Reads the file with a saved mapping as it stands now. */
  const readWithSaved = async (file: File, name: string) => {
    const { document, problem } = await getJson<SavedMapping>(`/api/v1/mappings/${encodeURIComponent(name)}`);
    if (problem !== null) setStep({ at: 'refused', file, problem, wasSending: false });
    else look(file, { used: { mapping: document.mapping, saved: { name, revision: document.revision } } });
  };

  const cancel = () => {
    const file = 'file' in step ? step.file : null;
    begin();
    if (file === null || step.at !== 'sending') setStep({ at: 'choose' });
    else look(file);
  };

  return { step, timeZone, timeFormat, used, look, readWithSaved, send, cancel };
}
