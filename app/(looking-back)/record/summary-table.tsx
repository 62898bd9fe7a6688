import { Table } from '@/app/ui/table/table';
import type { SummaryRow } from '@/lib/report/record/summary-row';
import { HeldBar } from './held-bar';

type Props = { caption: string; nameHead: string; rows: SummaryRow[]; aim: number };

/** How often the band held, and how far off the middle was, group by group. */
export function SummaryTable({ caption, nameHead, rows, aim }: Props) {
  return (
    <Table
      caption={caption}
      columns={[
        { key: 'name', head: nameHead },
        { key: 'held', head: 'Held within P10–P90', isNumber: true },
        { key: 'bar', head: 'against the aim', unit: `0 to 100 %, line at ${Math.round(aim * 100)} %` },
        { key: 'errorDays', head: 'Half within', isNumber: true },
        { key: 'errorShare', head: 'Half within', unit: 'of the time left', isNumber: true },
        { key: 'tooEarly', head: 'Too early', isNumber: true },
        { key: 'tooLate', head: 'Too late', isNumber: true },
        { key: 'noDay', head: 'No day given', isNumber: true },
      ]}
      rowHead="name"
      rows={rows.map((row) => ({
        key: row.name,
        cells: { ...row, bar: <HeldBar bar={row.bar} aim={aim} /> },
      }))}
    />
  );
}
