import Link from 'next/link';
import { Section } from '@/app/ui/section/section';
import { type Column, Table } from '@/app/ui/table/table';
import type { PlannedView } from '@/lib/report/energy/planned-view';
import { countOf } from '@/lib/report/format/words';
import styles from './energy.module.css';

/** Cleanings that stand open, those that save most; the rest follow when asked for. */
const MOST_OPEN = 10;

/** What the accepted plans are projected to save, and the open cleanings of theirs. */
export function PlannedPart({ planned }: { planned: PlannedView }) {
  const rest = planned.rows.slice(MOST_OPEN);
  return (
    <Section
      id="planned"
      title="What planned cleanings will save"
      lead={
        planned.rows.length === 0 ? (
          <p>
            No cleaning is planned. <Link href="/plan">Make a plan</Link> and accept it: its cleanings stand
            here with what each is projected to save.
          </p>
        ) : (
          [...planned.sentences, ...planned.comparison].map((sentence) => <p key={sentence}>{sentence}</p>)
        )
      }
    >
      {planned.rows.length === 0 ? null : (
        <Rows
          caption="Planned cleanings and the loss each is projected to avoid, the most first"
          rows={planned.rows.slice(0, MOST_OPEN)}
        />
      )}
      {rest.length === 0 ? null : (
        <details className={styles.details}>
          <summary>The other {countOf(rest.length, 'cleaning')}</summary>
          <Rows caption="Further planned cleanings" rows={rest} />
        </details>
      )}
    </Section>
  );
}

const COLUMNS: Column[] = [
  { key: 'tag', head: 'Unit' },
  { key: 'site', head: 'Site' },
  { key: 'when', head: 'Planned for' },
  { key: 'outage', head: 'Outage' },
  { key: 'cost', head: 'Cost', unit: 'with downtime', isNumber: true },
  { key: 'saves', head: 'Avoids', unit: 'projected, with the others done', isNumber: true },
];

function Rows({ caption, rows }: { caption: string; rows: PlannedView['rows'] }) {
  return (
    <Table
      caption={caption}
      columns={COLUMNS}
      rowHead="tag"
      rows={rows.map(({ key, when, ...cells }) => ({
        key,
        cells: { ...cells, when: <span className={styles.whole}>{when}</span> },
      }))}
    />
  );
}
