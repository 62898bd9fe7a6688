'use client';

import { useRouter } from 'next/navigation';
import { useId, useRef, useState } from 'react';
import { deleteJson, type Problem } from '@/app/ui/api/problem';
import { ProblemNotice } from '@/app/ui/api/problem-notice';
import { Button } from '@/app/ui/button/button';
import styles from './import.module.css';

/** Deletes a saved mapping as it was shown, after saying what that does. */
export function DeleteMapping({ name, revision }: { name: string; revision: number }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  const router = useRouter();
  const [isRunning, setIsRunning] = useState(false);
  const [problem, setProblem] = useState<Problem | null>(null);
  const remove = async () => {
    setIsRunning(true);
    const path = `/api/v1/mappings/${encodeURIComponent(name)}?revision=${revision}`;
    const answer = await deleteJson<{ deleted: string }>(path);
    setIsRunning(false);
    setProblem(answer.problem);
    if (answer.problem !== null) return;
    dialog.current?.close();
    router.push('/import#mappings');
    router.refresh();
  };
  return (
    <>
      <Button weight="quiet" onClick={() => dialog.current?.showModal()}>
        Delete<span className="unseen"> the mapping {name}</span> …
      </Button>
      <dialog ref={dialog} className={styles.dialog} aria-labelledby={titleId}>
        <h2 id={titleId}>Delete the mapping “{name}”?</h2>
        <p>
          Files read with it stay as they are; a folder that is watched with it is no longer read. The record
          of changes keeps what it said.
        </p>
        {problem === null ? null : <ProblemNotice title="Not deleted" problem={problem} />}
        <p className={styles.actions}>
          <Button onClick={() => dialog.current?.close()} disabled={isRunning}>
            Keep it
          </Button>
          <Button weight="primary" onClick={remove} disabled={isRunning}>
            {isRunning ? 'Deleting …' : 'Delete it'}
          </Button>
        </p>
      </dialog>
    </>
  );
}
