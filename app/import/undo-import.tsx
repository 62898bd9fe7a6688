'use client';

import { useRouter } from 'next/navigation';
import { useId, useRef, useState } from 'react';
import { getJson, type Problem, postJson } from '@/app/ui/api/problem';
import { ProblemNotice } from '@/app/ui/api/problem-notice';
import { Button } from '@/app/ui/button/button';
import type { UndoPreview } from '@/lib/contract/replaced-readings';
import { undoneHref } from '@/lib/report/import/import-address';
import { undoInWords } from '@/lib/report/import/undo-words';
import styles from './import.module.css';

type Props = { batch: number; takesBack: string; isQuiet?: boolean };

/** Takes an import back, after saying what that does. */
export function UndoImport({ batch, takesBack, isQuiet }: Props) {
  const dialog = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  const router = useRouter();
  const [isRunning, setIsRunning] = useState(false);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [preview, setPreview] = useState<UndoPreview | null>(null);
  const ask = async () => {
    dialog.current?.showModal();
    setProblem(null);
    const answer = await getJson<UndoPreview>(`/api/v1/imports/${batch}/undo-preview`);
    setPreview(answer.document);
    setProblem(answer.problem);
  };
  const undo = async () => {
    setIsRunning(true);
    setProblem(null);
    const path = `/api/v1/imports/${batch}/undo`;
    const answer = await postJson<{ batch: number; removed: number; restored: number }>(path, {});
    setIsRunning(false);
    if (answer.problem !== null) return setProblem(answer.problem);
    dialog.current?.close();
    router.push(undoneHref(answer.document));
  };
  return (
    <>
      <Button weight={isQuiet ? 'quiet' : 'plain'} onClick={ask}>
        Undo{isQuiet ? <span className="unseen"> import {batch}</span> : ' this import'} …
      </Button>
      <dialog ref={dialog} className={styles.dialog} aria-labelledby={titleId}>
        <h2 id={titleId}>Undo import {batch}?</h2>
        <p aria-live="polite">{preview === null ? takesBack : undoInWords(preview)}</p>
        {problem === null ? null : <ProblemNotice title="Not undone" problem={problem} />}
        <p className={styles.actions}>
          <Button onClick={() => dialog.current?.close()} disabled={isRunning}>
            Keep it
          </Button>
          <Button weight="primary" onClick={undo} disabled={isRunning || preview === null}>
            {isRunning ? 'Undoing …' : `Undo import ${batch}`}
          </Button>
        </p>
      </dialog>
    </>
  );
}
