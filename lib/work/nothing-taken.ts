import type { ImportReport } from '@/lib/contract/import-report';
import { listSetAside } from '@/lib/store/entities/batches';
import type { Context } from './context';

/** Why an import came to nothing: every row of its file was set aside. Null where something was taken, or there was no row. */
export async function whyNothingTaken(context: Context, report: ImportReport): Promise<string | null> {
  const { batch, added, replaced, unchanged, setAside } = report;
  if (setAside === 0 || added + replaced + unchanged > 0) return null;
  // A check stores no rows: it has the reasons only.
  const [row] = batch === null ? [] : await listSetAside(context.store.entities, batch, 1);
  const reasons = Object.keys(report.setAsideByReason).join(', ');
  const first =
    row === undefined
      ? reasons
      : `line ${row.line}, ${row.field === null ? '' : `${row.field}: `}${row.message}`;
  return `every row was set aside: ${first}`;
}
