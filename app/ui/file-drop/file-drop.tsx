'use client';

import { type DragEvent, type ReactNode, useId, useRef, useState } from 'react';
import { Button } from '@/app/ui/button/button';
import styles from './file-drop.module.css';

type Props = {
  onChoose: (file: File) => void;
  /** Endings and media types a browser offers first. */
  accept: string;
  testId: string;
  label: string;
  weight?: 'primary' | 'plain' | 'quiet';
  /** What is taken and what becomes of it; without it there is the button alone, and nothing to drop on. */
  hint?: ReactNode;
};

/** Choose a file by button and keyboard, or drop it. */
export function FileDrop({ onChoose, accept, testId, label, weight = 'primary', hint }: Props) {
  const input = useRef<HTMLInputElement>(null);
  const hintId = useId();
  const [isOver, setIsOver] = useState(false);
  const take = (files: FileList | null) => {
    const file = files?.[0];
    if (file !== undefined) onChoose(file);
    // The same file chosen again, mended in between, must count as a choice.
    if (input.current !== null) input.current.value = '';
  };
  const hasHint = hint !== undefined;
  const chooser = (
    <>
      <input
        ref={input}
        type="file"
        className="unseen"
        tabIndex={-1}
        aria-hidden="true"
        accept={accept}
        onChange={(event) => take(event.target.files)}
        data-testid={testId}
      />
      <Button
        weight={weight}
        onClick={() => input.current?.click()}
        aria-describedby={hasHint ? hintId : undefined}
      >
        {label}
      </Button>
    </>
  );
  if (!hasHint) return <span>{chooser}</span>;
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setIsOver(false);
    take(event.dataTransfer.files);
  };
  return (
    // Dropping is a second way; the button inside is the one for everybody.
    // biome-ignore lint/a11y/noStaticElementInteractions: takes drops only
    <div
      className={`${styles.drop} ${isOver ? styles.over : ''}`}
      onDragOver={(event) => {
        event.preventDefault();
        setIsOver(true);
      }}
      onDragLeave={() => setIsOver(false)}
      onDrop={drop}
    >
      {chooser}
      <p id={hintId}>{hint}</p>
    </div>
  );
}
