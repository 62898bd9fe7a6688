import Link from 'next/link';
import { Empty } from '@/app/ui/empty/empty';
import { Breadcrumb } from '@/app/ui/page-header/breadcrumb';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Table } from '@/app/ui/table/table';
import type { ReplacedView } from '@/lib/report/import/replaced-view';

/** The values that an import replaced, each as it was and as the import left it. */
export function ReplacedScreen({ view }: { view: ReplacedView }) {
  const { batch, title, sentence, rows, more, csvHref } = view;
  return (
    <>
      <Breadcrumb>
        <Link href="/import">Import</Link> / <Link href={`/import?batch=${batch}`}>Import {batch}</Link> /
        Replaced
      </Breadcrumb>
      <PageHeader
        title={title}
        actions={
          rows.length === 0 ? null : (
            <a className="screen-only" href={csvHref} download>
              CSV<span className="unseen"> of the replaced values</span>
            </a>
          )
        }
      >
        <p>{sentence}</p>
      </PageHeader>
      {rows.length === 0 ? (
        <Empty title="No value was replaced" actions={null}>
          <p>Everything in this import was new, or the same as before.</p>
        </Empty>
      ) : (
        <Table
          caption="Values as they were before the import, and as it left them"
          columns={[
            { key: 'tag', head: 'Unit' },
            { key: 'time', head: 'Time', unit: 'of the site' },
            { key: 'sensor', head: 'Sensor' },
            { key: 'before', head: 'Before', isNumber: true },
            { key: 'after', head: 'After', isNumber: true },
            { key: 'from', head: 'Was from' },
            { key: 'since', head: 'Since then' },
          ]}
          rows={rows.map(({ key, fromHref, from, ...cells }) => ({
            key,
            cells: { ...cells, from: <Link href={fromHref}>{from}</Link> },
          }))}
        />
      )}
      {more === null ? null : <p>{more}</p>}
    </>
  );
}
