import Link from 'next/link';
import { type Column, Table } from '@/app/ui/table/table';
import { currencySign, formatNumber, MISSING } from '@/lib/report/format/figure';
import { crewLoad } from '@/lib/report/plan/crew-load';
import { type PlanTableRow, planTable } from '@/lib/report/plan/plan-table';
import { NO_PRICE } from '@/lib/report/plan/saves-words';
import { DraftBar } from './draft-bar';
import styles from './plan.module.css';
import type { Stage } from './stage';

/** The same plan as figures: every cleaning, then the hours of work. */
export function PlanTable({ stage }: { stage: Stage }) {
  const { view, desk, board } = stage;
  const rows = planTable(desk, board.draft, board.price);
  return (
    <>
      <DraftBar stage={stage} />
      {rows.length === 0 ? (
        <p className={styles.nothing}>No cleaning is planned.</p>
      ) : (
        <Table
          caption={`Cleanings planned at ${view.site}, the earliest first`}
          columns={columnsOf(desk.currency)}
          rows={rows.map((row) => ({ key: `${row.tag} ${row.start}`, cells: cellsOf(row) }))}
          rowHead="tag"
        />
      )}
      <CrewTable stage={stage} />
    </>
  );
}

function columnsOf(currency: string): Column[] {
  const unit = currencySign(currency);
  return [
    { key: 'tag', head: 'Unit' },
    { key: 'start', head: 'From' },
    { key: 'end', head: 'To' },
    { key: 'where', head: 'Where' },
    { key: 'reason', head: 'Why' },
    { key: 'method', head: 'Method' },
    { key: 'crew', head: 'Crew', unit: 'h', isNumber: true },
    { key: 'cost', head: 'Cost', unit: `${unit}, with downtime`, isNumber: true },
    { key: 'saves', head: 'Avoids', unit: `${unit} of expected loss`, isNumber: true },
    { key: 'before', head: 'Must start before', isNumber: true },
    { key: 'late', head: 'Late', unit: 'days', isNumber: true },
  ];
}

function cellsOf(row: PlanTableRow) {
  return {
    tag: (
      <Link href={`/units/${encodeURIComponent(row.tag)}`} prefetch={false}>
        {row.tag}
      </Link>
    ),
    start: row.startWords,
    end: row.endWords,
    where: row.where,
    reason: row.reason,
    method: row.method ?? MISSING,
    crew: formatNumber(row.crewHours, 0),
    cost: formatNumber(row.cost, 0),
    saves: row.saves === null ? NO_PRICE : formatNumber(row.saves, 0),
    before: row.cleanBefore ?? MISSING,
    late:
      row.daysLate > 0 ? <span className={styles.overText}>■ {formatNumber(row.daysLate, 0)}</span> : MISSING,
  };
}

function CrewTable({ stage: { view, desk, board } }: { stage: Stage }) {
  const busy = crewLoad(desk, board.draft, view.span).filter(({ used }) => used > 0);
  if (busy.length === 0) return null;
  return (
    <div className={styles.crewTable}>
      <Table
        caption="Crew hours, used of those there are"
        isCaptionShown
        columns={[
          { key: 'name', head: 'Outage or week' },
          { key: 'words', head: 'Used', isNumber: true },
        ]}
        rows={busy.map(({ name, words, isOver, from }) => ({
          key: `${name} ${from}`,
          cells: { name, words: isOver ? <span className={styles.overText}>■ {words}</span> : words },
        }))}
        rowHead="name"
      />
    </div>
  );
}
