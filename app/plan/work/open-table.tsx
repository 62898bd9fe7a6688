import { Allowed } from '@/app/access/rights';
import { StateMark } from '@/app/ui/state-mark/state-mark';
import { Table } from '@/app/ui/table/table';
import type { WorkRow } from '@/lib/report/work-list/work-row';
import { CallOffForm } from './call-off-form';
import { DoneForm } from './done-form';
import { MoveForm } from './move-form';
import { Offers } from './offers';
import { History, UnitCell } from './unit-cell';
import styles from './work.module.css';

/** Open work: where, when, why, what it costs and is projected to save, and what can be done about it. */
export function OpenTable({ title, rows }: { title: string; rows: WorkRow[] }) {
  return (
    <Table
      caption={`Cleanings to be done, ${title}`}
      columns={[
        { key: 'unit', head: 'Unit' },
        { key: 'when', head: 'Out of service', unit: 'local time; where' },
        { key: 'method', head: 'Method and crew' },
        { key: 'cost', head: 'Cost', isNumber: true },
        { key: 'saves', head: 'Avoids', unit: 'loss, projected', isNumber: true },
        { key: 'reason', head: 'Why' },
        { key: 'state', head: 'Unit today' },
        { key: 'actions', head: <span className="unseen">Actions</span> },
      ]}
      rowHead="unit"
      rows={rows.map((row) => ({ key: `${row.id}`, cells: cellsOf(row) }))}
    />
  );
}

function cellsOf(row: WorkRow) {
  const what = `cleaning of ${row.tag}, ${row.when}`;
  return {
    unit: <UnitCell row={row} />,
    when: (
      <>
        <span className={styles.whole}>{row.when}</span>
        <span className={styles.small}>
          {row.place}, {row.timeZone}
        </span>
        {row.isOverdue ? <strong className={styles.overdue}>◆ overdue: not marked done</strong> : null}
        <History row={row} />
      </>
    ),
    method: (
      <>
        {row.method}
        <span className={styles.small}>{row.crew} of work</span>
      </>
    ),
    cost: row.cost,
    saves: row.saves,
    reason: <span className={styles.reason}>{row.reason}</span>,
    state: <StateMark state={row.unitState} />,
    actions: (
      <div className="screen-only">
        <div className={styles.actions}>
          <Allowed right="clean">
            <DoneForm row={row} what={what} />
          </Allowed>
          <Allowed right="plan">
            <MoveForm row={row} what={what} />
            <CallOffForm row={row} what={what} />
          </Allowed>
        </div>
        <Allowed right="clean">
          <Offers row={row} />
        </Allowed>
      </div>
    ),
  };
}
