import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import { Value } from '@/app/ui/value/value';
import type { Figure } from '@/lib/report/format/figure';
import type { CleaningTable } from '@/lib/report/unit/cleaning-rows';
import type { CycleTable } from '@/lib/report/unit/cycle-rows';
import type { CleaningForm } from '@/lib/report/unit-view';
import { CleaningsTable } from './cleanings-table';
import styles from './cycles.module.css';

type Props = { cycles: CycleTable; cleanings: CleaningTable; form: CleaningForm };

/** Cycle by cycle: how it began and how fast it fouled; then each cleaning and what it gave back. */
export function CyclesSection({ cycles, cleanings, form }: Props) {
  if (cycles.rows.length === 0 && cleanings.rows.length === 0) return null;
  return (
    <Section
      id="cycles"
      title="Cycles and cleanings"
      lead={<p>A cycle runs from one cleaning to the next; a fall that nobody explained yet divides too.</p>}
    >
      {cycles.rows.length === 0 ? null : <Cycles cycles={cycles} />}
      <CleaningsTable cleanings={cleanings} form={form} />
    </Section>
  );
}

function Cycles({ cycles }: { cycles: CycleTable }) {
  const bare = (figure: Figure) => <Value figure={{ ...figure, unit: '' }} missing="too few days" />;
  return (
    <div className={styles.table}>
      <Table
        caption="Cycles, the running one first"
        columns={[
          { key: 'start', head: 'Start' },
          { key: 'began', head: 'Began with' },
          { key: 'end', head: 'End' },
          { key: 'endedBy', head: 'Ended by' },
          { key: 'days', head: 'Days', isNumber: true },
          { key: 'atStart', head: 'Fouling at start', unit: cycles.foulingUnit, isNumber: true },
          { key: 'atEnd', head: 'Fouling at end', unit: cycles.foulingUnit, isNumber: true },
          { key: 'rate', head: 'Growth', unit: cycles.rateUnit, isNumber: true },
        ]}
        rowHead="start"
        rows={cycles.rows.map(({ key, foulingAtStart, foulingAtEnd, ratePerDay, ...cells }) => ({
          key,
          cells: {
            ...cells,
            atStart: bare(foulingAtStart),
            atEnd: bare(foulingAtEnd),
            rate: bare(ratePerDay),
          },
        }))}
      />
    </div>
  );
}
