import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import type { MethodRow, MethodsView } from '@/lib/report/cleanings/methods-view';
import { countOf } from '@/lib/report/format/words';
import styles from './cleanings.module.css';

/** The methods of all cleanings beside each other, and which differ by more than chance. */
export function MethodsSection({ methods }: { methods: MethodsView }) {
  if (methods.rows.length === 0) return null;
  return (
    <Section
      id="methods"
      title="Methods compared"
      lead={
        <>
          <p>Over all cleanings of the record.</p>
          {methods.differences.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </>
      }
    >
      <Table
        caption="Cleaning methods by what their cleanings recovered"
        columns={[
          { key: 'method', head: 'Method' },
          { key: 'cleanings', head: 'Cleanings', isNumber: true },
          { key: 'recovered', head: 'Recovered', unit: 'median', isNumber: true },
          { key: 'bar', head: 'Spread', unit: '0 to 100 %; wide: of the median' },
          { key: 'interval', head: 'Median of all such', unit: '95 % interval', isNumber: true },
          { key: 'back', head: 'As fouled as before after', unit: 'median', isNumber: true },
          { key: 'hours', head: 'Takes', unit: 'h, median', isNumber: true },
          { key: 'cost', head: 'Costs', unit: 'median', isNumber: true },
          { key: 'worthPerCost', head: 'Worth so far', unit: 'per cost, at least', isNumber: true },
        ]}
        rowHead="method"
        rows={methods.rows.map((row) => ({
          key: row.method,
          cells: { ...row, bar: <SpreadBar bar={row.bar} /> },
        }))}
      />
      {methods.withoutMethod === 0 ? null : (
        <p className={styles.note}>
          {countOf(methods.withoutMethod, 'cleaning')} without a method written down{' '}
          {methods.withoutMethod === 1 ? 'is' : 'are'} not among them.
        </p>
      )}
    </Section>
  );
}

const percent = (share: number) => `${(100 * share).toFixed(1)}%`;

/** Shares recovered from 0 to 100 %: thin their spread, wide the interval of the median, a tick at the median. */
function SpreadBar({ bar }: { bar: MethodRow['bar'] }) {
  if (bar === null) return null;
  const { middle, low, high, interval } = bar;
  return (
    <svg className={styles.fall} aria-hidden="true">
      <title>spread of the share recovered</title>
      <line className={styles.fallAxis} x1="0" x2="100%" y1="50%" y2="50%" />
      <line className={styles.fallLine} x1={percent(low)} x2={percent(high)} y1="50%" y2="50%" />
      {interval === null ? null : (
        <rect
          className={styles.spread}
          x={percent(interval.low)}
          width={percent(Math.max(interval.high - interval.low, 0.01))}
          y="20%"
          height="60%"
        />
      )}
      <line className={styles.spreadMiddle} x1={percent(middle)} x2={percent(middle)} y1="0" y2="100%" />
    </svg>
  );
}
