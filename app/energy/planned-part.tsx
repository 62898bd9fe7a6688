import Link from 'next/link';
import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import type { PlannedView } from '@/lib/report/energy/planned-view';
import styles from './energy.module.css';

/** What the open cleanings of the accepted plan are projected to save. */
export function PlannedPart({ planned }: { planned: PlannedView }) {
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
        <Table
          caption="Planned cleanings and what each is projected to save"
          columns={[
            { key: 'tag', head: 'Unit' },
            { key: 'site', head: 'Site' },
            { key: 'when', head: 'Planned for' },
            { key: 'outage', head: 'Outage' },
            { key: 'cost', head: 'Cost', unit: 'with downtime', isNumber: true },
            { key: 'saves', head: 'Saves', unit: 'projected', isNumber: true },
            { key: 'net', head: 'Net', unit: 'projected', isNumber: true },
          ]}
          rowHead="tag"
          rows={planned.rows.map(({ key, when, ...cells }) => ({
            key,
            cells: { ...cells, when: <span className={styles.whole}>{when}</span> },
          }))}
        />
      )}
    </Section>
  );
}
