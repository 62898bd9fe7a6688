import { Pick } from '@/app/ui/choice/pick';
import { Table } from '@/app/ui/table/table';
import type { SensorCheck } from '@/lib/report/import/unit-check';
import styles from './mapping.module.css';

type Props = { tag: string; tags: string[]; checks: SensorCheck[]; onPick: (tag: string) => void };

/** One unit as the columns chosen so far describe it, against its design. */
export function UnitPanel({ tag, tags, checks, onPick }: Props) {
  return (
    <div className={styles.unit}>
      <div className={styles.bar}>
        <h4>Against the design</h4>
        <Pick
          label="Unit"
          options={tags.map((each) => ({ value: each, label: each }))}
          value={tag}
          onPick={onPick}
        />
      </div>
      <Table
        caption={`What the columns say of ${tag}, against its design`}
        columns={[
          { key: 'sensor', head: 'Quantity' },
          { key: 'column', head: 'Column' },
          { key: 'reads', head: 'Reads', isNumber: true },
          { key: 'design', head: 'Design', isNumber: true },
          { key: 'unit', head: 'In' },
        ]}
        rowHead="sensor"
        rows={checks.map(({ sensor, words, column, reads, design, unit, doubt }) => ({
          key: sensor,
          cells: {
            sensor: words,
            column: (
              <>
                {column ?? <span className={styles.faint}>none</span>}
                {doubt === null ? null : <span className={styles.doubt}>{doubt}</span>}
              </>
            ),
            reads,
            design,
            unit: column === null && design === '' ? '' : unit,
          },
        }))}
      />
    </div>
  );
}
