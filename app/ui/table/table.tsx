import type { ReactNode } from 'react';
import styles from './table.module.css';

export type Column = {
  key: string;
  head: ReactNode;
  /** Unit of the whole column, shown under the head. */
  unit?: string;
  /** Numbers stand right so that decimals align. */
  isNumber?: boolean;
};

type Row = { key: string; cells: Record<string, ReactNode> };

type Props = {
  /** Read out as the table's name; `isCaptionShown` also shows it. */
  caption: string;
  isCaptionShown?: boolean;
  columns: Column[];
  rows: Row[];
  /** Key of the column whose cells head their row. */
  rowHead?: string;
};

/** A plain table: hairlines, right-aligned numbers, units in the head; scrolls sideways on narrow screens. */
export function Table({ caption, isCaptionShown, columns, rows, rowHead }: Props) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard (WCAG 2.1.1)
    <section className={styles.scroll} aria-label={caption} tabIndex={0}>
      <table className={styles.table}>
        <caption className={isCaptionShown ? styles.caption : 'unseen'}>{caption}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column.key} scope="col" className={column.isNumber ? styles.number : undefined}>
                {column.head}
                {column.unit ? <span className={styles.unit}>{column.unit}</span> : null}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.key}>
              {columns.map((column) => {
                const className = column.isNumber ? styles.number : undefined;
                return column.key === rowHead ? (
                  <th key={column.key} scope="row" className={className}>
                    {row.cells[column.key]}
                  </th>
                ) : (
                  <td key={column.key} className={className}>
                    {row.cells[column.key]}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
