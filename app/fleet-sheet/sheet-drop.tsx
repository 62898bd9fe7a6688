import { type DragEvent, useId, useRef, useState } from 'react';
import { Button } from '@/app/ui/button/button';
import styles from './fleet-sheet.module.css';

type Props = { onChoose: (file: File) => void; chosen: string | null };

/** Choose the workbook by button and keyboard, or drop it. */
export function SheetDrop({ onChoose, chosen }: Props) {
  const input = useRef<HTMLInputElement>(null);
  const hintId = useId();
  const [isOver, setIsOver] = useState(false);
  const take = (files: FileList | null) => {
    const file = files?.[0];
    if (file !== undefined) onChoose(file);
    // The same file chosen again, mended in between, must count as a choice.
    if (input.current !== null) input.current.value = '';
  };
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
      <input
        ref={input}
        type="file"
        className="unseen"
        tabIndex={-1}
        aria-hidden="true"
        accept=".xlsx,.csv,.tsv,.txt,text/csv,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
        onChange={(event) => take(event.target.files)}
        data-testid="fleet-sheet"
      />
      <Button
        weight={chosen === null ? 'primary' : 'plain'}
        onClick={() => input.current?.click()}
        aria-describedby={hintId}
      >
        {chosen === null ? 'Choose the workbook' : 'Choose again'}
      </Button>
      <p id={hintId}>
        {chosen === null ? 'or drop it here. XLSX, or its sheet of units as CSV.' : <strong>{chosen}</strong>}
      </p>
    </div>
  );
}
