import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import { Value } from '@/app/ui/value/value';
import type { LimitRow, LimitTable } from '@/lib/report/unit/limit-rows';
import styles from './unit.module.css';

/** Every limit of the unit beside each other: the clean-by statement speaks of the first to be reached only. */
export function LimitsSection({ limits }: { limits: LimitTable }) {
  if (limits.rows.length === 0) return null;
  return (
    <Section
      id="limits"
      title="Limits"
      lead={
        <p>
          Days are projected, P10 to P90; the limit with the earliest median governs. Pressure drops are those
          at the design flow.
        </p>
      }
    >
      <div className={styles.table}>
        <Table
          caption="All limits of the unit"
          columns={[
            { key: 'label', head: 'Limit' },
            { key: 'limit', head: 'At', isNumber: true },
            { key: 'today', head: 'Today', isNumber: true },
            { key: 'used', head: 'Used', isNumber: true },
            { key: 'p10', head: 'P10', isNumber: true },
            { key: 'p50', head: 'P50', isNumber: true },
            { key: 'p90', head: 'P90', isNumber: true },
            { key: 'probability', head: `Within ${limits.horizon}`, isNumber: true },
          ]}
          rowHead="label"
          rows={limits.rows.map((row) => ({ key: row.key, cells: cellsOf(row) }))}
        />
      </div>
    </Section>
  );
}

function cellsOf({ label, isGoverning, today, ...others }: LimitRow) {
  return {
    ...others,
    label: isGoverning ? (
      <>
        {label} <span className={styles.note}>governs</span>
      </>
    ) : (
      label
    ),
    today: <Value figure={today} missing="no answer" />,
  };
}
