import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import { Value } from '@/app/ui/value/value';
import type { Figure } from '@/lib/report/format/figure';
import type { CycleTable } from '@/lib/report/unit/cycle-rows';
import styles from './unit.module.css';

/** Cycle by cycle: how fast it fouled, and what the cleaning that ended it gave back. */
export function CyclesSection({ cycles }: { cycles: CycleTable }) {
  if (cycles.rows.length === 0) return null;
  const bare = (figure: Figure) => <Value figure={{ ...figure, unit: '' }} missing="too few days" />;
  return (
    <Section id="cycles" title="Cycles" lead={<p>From one recorded cleaning to the next.</p>}>
      <div className={styles.table}>
        <Table
          caption="Cycles, the running one first"
          columns={[
            { key: 'start', head: 'Start' },
            { key: 'end', head: 'End' },
            { key: 'days', head: 'Days', isNumber: true },
            { key: 'atStart', head: 'Fouling at start', unit: cycles.foulingUnit, isNumber: true },
            { key: 'atEnd', head: 'Fouling at end', unit: cycles.foulingUnit, isNumber: true },
            { key: 'rate', head: 'Growth', unit: cycles.rateUnit, isNumber: true },
            { key: 'endedBy', head: 'Ended by' },
          ]}
          rowHead="start"
          rows={cycles.rows.map((row) => ({
            key: row.key,
            cells: {
              start: row.start,
              end: row.end,
              days: row.days,
              atStart: bare(row.foulingAtStart),
              atEnd: bare(row.foulingAtEnd),
              rate: bare(row.ratePerDay),
              endedBy: row.endedBy,
            },
          }))}
        />
      </div>
    </Section>
  );
}
