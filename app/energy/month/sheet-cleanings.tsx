import { Table } from '@/app/ui/table/table';
import { MOST_CLEANINGS } from '@/lib/report/energy/month-view';
import type { PlannedView } from '@/lib/report/energy/planned-view';
import type { ReturnedView } from '@/lib/report/energy/returned-view';
import { countOf } from '@/lib/report/format/words';
import styles from './month.module.css';

/** What cleanings cost and returned, the latest few by name. */
export function SheetCleanings({ returned }: { returned: ReturnedView }) {
  const { sentences, rows, uncounted } = returned;
  return (
    <>
      {sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {rows.length === 0 ? null : (
        <Table
          caption="Cleanings and what they returned so far"
          columns={[
            { key: 'tag', head: 'Unit' },
            { key: 'day', head: 'Cleaned' },
            { key: 'cost', head: 'Cost', isNumber: true },
            { key: 'returned', head: 'Returned', isNumber: true },
            { key: 'paidBack', head: 'Paid back', isNumber: true },
          ]}
          rowHead="tag"
          rows={rows.slice(0, MOST_CLEANINGS).map(({ key, ...cells }) => ({ key, cells }))}
        />
      )}
      <More all={rows.length} of="cleaning" />
      {uncounted.length === 0 ? null : (
        <p className={styles.small}>{uncounted.map((line) => line.split(':')[0]).join('; ')}.</p>
      )}
    </>
  );
}

/** What the accepted plans are projected to save, the next few cleanings by name. */
export function SheetPlanned({ planned }: { planned: PlannedView }) {
  const { sentences, comparison, rows } = planned;
  if (rows.length === 0) return <p>No cleaning is planned.</p>;
  return (
    <>
      {[...sentences, ...comparison].map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <Table
        caption="Planned cleanings and the loss each is projected to avoid"
        columns={[
          { key: 'tag', head: 'Unit' },
          { key: 'when', head: 'Planned for' },
          { key: 'cost', head: 'Cost', isNumber: true },
          { key: 'saves', head: 'Avoids', unit: 'projected', isNumber: true },
        ]}
        rowHead="tag"
        rows={rows.slice(0, MOST_CLEANINGS).map(({ key, ...cells }) => ({ key, cells }))}
      />
      <More all={rows.length} of="cleaning" />
    </>
  );
}

/** How many more than those named there are. */
function More({ all, of }: { all: number; of: string }) {
  const more = all - MOST_CLEANINGS;
  return more > 0 ? <p className={styles.small}>and {countOf(more, `other ${of}`)}</p> : null;
}
