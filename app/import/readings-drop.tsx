import { FileDrop } from '@/app/ui/file-drop/file-drop';

type Props = { onChoose: (file: File) => void; isSmall?: boolean };

/** Chooses a file of readings; small where one is chosen already. */
export function ReadingsDrop({ onChoose, isSmall = false }: Props) {
  return (
    <FileDrop
      onChoose={onChoose}
      accept=".csv,.txt,.tsv,.gz,.xlsx,.ndjson,.jsonl,text/csv,application/gzip"
      testId="readings-file"
      label={isSmall ? 'Choose another file' : 'Choose a file'}
      weight={isSmall ? 'quiet' : 'primary'}
      hint={isSmall ? undefined : HINT}
    />
  );
}

const HINT =
  'or drop it here. CSV, XLSX or NDJSON, plain or gzipped; it is looked at first, nothing is stored yet.';
