import Link from 'next/link';
import { Table } from '@/app/ui/table/table';
import type { BatchRow } from '@/lib/report/import/import-view';
import { UndoImport } from './undo-import';

const COUNTS = ['read', 'added', 'replaced', 'unchanged', 'kept aside'] as const;

/** The latest imports, newest first, each with its report and the way back. */
export function BatchList({ batches, timeZone }: { batches: BatchRow[]; timeZone: string }) {
  return (
    <Table
      caption="The latest imports, newest first"
      columns={[
        { key: 'id', head: 'No.', isNumber: true },
        { key: 'source', head: 'File' },
        { key: 'at', head: `Taken (${timeZone})` },
        ...COUNTS.map((head) => ({ key: head, head, isNumber: true })),
        { key: 'undo', head: <span className="unseen">Undo</span> },
      ]}
      rowHead="source"
      rows={batches.map(({ id, href, source, at, counts, takesBack, canUndo, undone }) => ({
        key: `${id}`,
        cells: {
          id,
          source: <Link href={href}>{source}</Link>,
          at,
          ...Object.fromEntries(COUNTS.map((name, i) => [name, counts[i]])),
          undo: canUndo ? <UndoImport batch={id} takesBack={takesBack} isQuiet /> : undone,
        },
      }))}
    />
  );
}
