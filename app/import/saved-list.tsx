import Link from 'next/link';
import { Table } from '@/app/ui/table/table';
import type { SavedRow } from '@/lib/report/import/intake-view';
import { DeleteMapping } from './delete-mapping';

/** Saved mappings, each to look at, change or delete. */
export function SavedList({ mappings }: { mappings: SavedRow[] }) {
  return (
    <Table
      caption="Saved mappings"
      columns={[
        { key: 'name', head: 'Name' },
        { key: 'columns', head: 'Explains' },
        { key: 'units', head: 'Units' },
        { key: 'changed', head: 'Changed' },
        { key: 'delete', head: <span className="unseen">Delete</span> },
      ]}
      rowHead="name"
      rows={mappings.map(({ name, href, revision, ...cells }) => ({
        key: name,
        cells: {
          ...cells,
          name: <Link href={href}>{name}</Link>,
          delete: <DeleteMapping name={name} revision={revision} />,
        },
      }))}
    />
  );
}
