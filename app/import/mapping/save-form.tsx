'use client';

import { type FormEvent, useId, useState } from 'react';
import { type Problem, putJson } from '@/app/ui/api/problem';
import { ProblemNotice } from '@/app/ui/api/problem-notice';
import { Button } from '@/app/ui/button/button';
import type { Mapping } from '@/lib/contract/mapping';
import type { SavedMapping } from '@/lib/contract/saved-mapping';
import styles from './mapping.module.css';

type Props = {
  /** The saved mapping that is being changed; null for a new one. */
  loaded: { name: string; revision: number } | null;
  proposedName: string;
  submitLabel: string;
  mapping: () => Mapping;
  onSaved: (saved: SavedMapping) => void;
  /** Further actions beside the button. */
  children?: React.ReactNode;
};

/** Keeps the mapping by name. Under another name it becomes a new one. */
export function SaveForm({ loaded, proposedName, submitLabel, mapping, onSaved, children }: Props) {
  const [name, setName] = useState(loaded?.name ?? proposedName);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [isSaving, setIsSaving] = useState(false);
  const nameId = useId();
  const save = async (event: FormEvent) => {
    event.preventDefault();
    setIsSaving(true);
    const revision = loaded?.name === name.trim() ? loaded.revision : null;
    const path = `/api/v1/mappings/${encodeURIComponent(name.trim())}`;
    const answer = await putJson<SavedMapping>(path, { mapping: mapping(), revision });
    setIsSaving(false);
    setProblem(answer.problem);
    if (answer.problem === null) onSaved(answer.document);
  };
  return (
    <form className={styles.save} onSubmit={save}>
      {problem === null ? null : <ProblemNotice title="The mapping was not saved" problem={problem} />}
      <label htmlFor={nameId}>Save the mapping as</label>
      <input
        id={nameId}
        value={name}
        required
        maxLength={80}
        onChange={(event) => setName(event.target.value)}
      />
      <span className={styles.actions}>
        <Button type="submit" weight="primary" disabled={isSaving || name.trim() === ''}>
          {isSaving ? 'Saving …' : submitLabel}
        </Button>
        {children}
      </span>
    </form>
  );
}
