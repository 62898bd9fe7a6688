import type { ComponentProps, ReactNode } from 'react';
import { Table } from '@/app/ui/table/table';
import styles from './row-cards.module.css';

/** A table whose rows stand as cards on narrow screens: every cell then says its column itself. */
export function RowCards({ columns, rows, rowHead, ...rest }: ComponentProps<typeof Table>) {
  const told = columns.flatMap(({ key, head }) =>
    typeof head === 'string' && key !== rowHead ? [{ key, head }] : [],
  );
  const labelled = rows.map(({ key, cells }) => ({
    key,
    cells: { ...cells, ...Object.fromEntries(told.map(({ key, head }) => [key, labelOf(head, cells[key])])) },
  }));
  return (
    <div className={styles.cards}>
      <Table {...rest} columns={columns} rows={labelled} rowHead={rowHead} />
    </div>
  );
}

function labelOf(head: string, cell: ReactNode) {
  return cell === '' ? null : (
    <div className={styles.cell} data-label={head}>
      <div className={styles.value}>{cell}</div>
    </div>
  );
}
