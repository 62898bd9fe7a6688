'use client';

import { type DragEvent, useId, useRef, useState } from 'react';
import { Button } from '@/app/ui/button/button';
import styles from './import.module.css';

/** Choose a file by button and keyboard, or drop it. */
export function FileDrop({ onChoose, isSmall }: { onChoose: (file: File) => void; isSmall?: boolean }) {
  const input = useRef<HTMLInputElement>(null);
  const hintId = useId();
  const [isOver, setIsOver] = useState(false);
  const take = (files: FileList | null) => {
    const file = files?.[0];
    if (file !== undefined) onChoose(file);
    // The same file chosen again, mended in between, must count as a choice.
    if (input.current !== null) input.current.value = '';
  };
  const chooser = (
    <>
      <input
        ref={input}
        type="file"
        className="unseen"
        tabIndex={-1}
        aria-hidden="true"
        accept=".csv,.txt,.tsv,.gz,.xlsx,.ndjson,.jsonl,text/csv,application/gzip"
        onChange={(event) => take(event.target.files)}
        data-testid="readings-file"
      />
      <Button
        weight={isSmall ? 'quiet' : 'primary'}
        onClick={() => input.current?.click()}
        aria-describedby={isSmall ? undefined : hintId}
      >
        {isSmall ? 'Choose another file' : 'Choose a file'}
      </Button>
    </>
  );
  if (isSmall) return <span>{chooser}</span>;
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
      <p id={hintId}>
        or drop it here. CSV, XLSX or NDJSON, plain or gzipped; it is looked at first, nothing is stored yet.
      </p>
    </div>
  );
}
