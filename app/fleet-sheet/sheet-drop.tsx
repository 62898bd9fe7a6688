import { FileDrop } from '@/app/ui/file-drop/file-drop';

type Props = { onChoose: (file: File) => void; chosen: string | null };

/** Chooses the filled workbook; where one is chosen, names it. */
export function SheetDrop({ onChoose, chosen }: Props) {
  return (
    <FileDrop
      onChoose={onChoose}
      accept=".xlsx,.csv,.tsv,.txt,text/csv,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
      testId="fleet-sheet"
      label={chosen === null ? 'Choose the workbook' : 'Choose again'}
      weight={chosen === null ? 'primary' : 'plain'}
      hint={
        chosen === null ? 'or drop it here. XLSX, or its sheet of units as CSV.' : <strong>{chosen}</strong>
      }
    />
  );
}
