import { useRef, useState } from 'react';
import { NOT_REACHED, type Problem, problemOf } from '@/app/ui/api/problem';
import type { FleetSheetCheck } from '@/lib/contract/fleet-sheet/answer';
import { type CheckView, checkView } from '@/lib/report/fleet-sheet/check-view';
import { takenInWords } from '@/lib/report/setup/fleet-words';

type Taken = Parameters<typeof takenInWords>[0];

export type SheetStep =
  | { at: 'idle' }
  | { at: 'checking'; file: File }
  | { at: 'checked'; file: File; view: CheckView }
  | { at: 'registering'; file: File; view: CheckView }
  | { at: 'registered'; file: File; said: string }
  | { at: 'refused'; file: File; problem: Problem; isChecked: boolean };

/** A workbook on its way: checked when it is chosen, registered when somebody says so. */
export function useFleetSheet() {
  const [step, setStep] = useState<SheetStep>({ at: 'idle' });
  // An answer about a file that another one has taken the place of is not shown.
  const newest = useRef<File | null>(null);
  const show = (next: SheetStep & { file: File }) => {
    if (newest.current === next.file) setStep(next);
  };
  const check = async (file: File) => {
    newest.current = file;
    setStep({ at: 'checking', file });
    const answer = await send<FleetSheetCheck>('/api/v1/fleet?check=1', file);
    show(
      answer.problem === null
        ? { at: 'checked', file, view: checkView(answer.document) }
        : { at: 'refused', file, problem: answer.problem, isChecked: false },
    );
  };
  const register = async (file: File, view: CheckView) => {
    setStep({ at: 'registering', file, view });
    const answer = await send<Taken>('/api/v1/fleet', file);
    show(
      answer.problem === null
        ? { at: 'registered', file, said: takenInWords(answer.document) }
        : { at: 'refused', file, problem: answer.problem, isChecked: true },
    );
  };
  return { step, check, register };
}

type Answer<Document> = { document: Document; problem: null } | { document: null; problem: Problem };

async function send<Document>(path: string, file: File): Promise<Answer<Document>> {
  try {
    // Its first bytes say what it is; what a browser calls it depends on what is installed there.
    const body = new Blob([await file.arrayBuffer()], { type: 'application/octet-stream' });
    const response = await fetch(path, { method: 'POST', body });
    const raw: unknown = await response.json().catch(() => null);
    if (response.ok && raw !== null) return { document: raw as Document, problem: null };
    return { document: null, problem: problemOf(response.status, raw) };
  } catch (error) {
    const isUnread = error instanceof DOMException && error.name === 'NotReadableError';
    return { document: null, problem: isUnread ? UNREAD : NOT_REACHED };
  }
}

/** A file that was changed after it was chosen can no longer be read from its old place. */
const UNREAD: Problem = {
  status: 0,
  detail: 'The file has changed since you chose it, or is open elsewhere. Save it, and choose it again.',
  errors: [],
};
