import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import type { HindcastRow, RecordView } from '@/lib/report/unit/record-view';
import { HindcastBar, HindcastScale } from './hindcast-bar';
import styles from './record.module.css';

/** Each past cycle projected anew from what was known then, beside what came: how sure a projection of this unit can be. */
export function RecordSection({ record }: { record: RecordView | null }) {
  if (record === null) return null;
  const { sentence, present, rows, scale } = record;
  return (
    <Section id="record" title="Past projections of this unit" lead={<p>{sentence}</p>}>
      {rows.length === 0 ? null : (
        <div className={styles.table}>
          <Table
            caption="Past projections, made anew at 25, 50 and 75 % of each cycle, newest first"
            columns={[
              { key: 'cycle', head: 'Cycle from' },
              { key: 'made', head: 'Made' },
              { key: 'level', head: 'Of' },
              { key: 'projected', head: 'P10 – P50 – P90' },
              { key: 'came', head: 'It came' },
              { key: 'error', head: 'P50 off by', unit: 'days', isNumber: true },
              { key: 'ofTimeLeft', head: 'of the time left', isNumber: true },
              { key: 'outcome', head: 'The band' },
              { key: 'picture', head: <HindcastScale scale={scale} /> },
            ]}
            rowHead="cycle"
            rows={rows.map(({ key, picture, outcome, ...cells }) => ({
              key,
              cells: {
                ...cells,
                outcome: <Outcome outcome={outcome} />,
                picture: <HindcastBar picture={picture} />,
              },
            }))}
          />
        </div>
      )}
      {rows.length === 0 ? null : (
        <p className={styles.note}>
          Each row is a projection made anew with only what was known that day, before any widening; “it came”
          is the day on which the smooth fouling of the whole cycle reached the level. Where a cycle was
          cleaned before its limit, the level is its fouling near the end. Above 0: projected too late.
        </p>
      )}
      {present.map((line) => (
        <p key={line} className={styles.present}>
          {line}
        </p>
      ))}
    </Section>
  );
}

function Outcome({ outcome }: { outcome: HindcastRow['outcome'] }) {
  return outcome === 'held' ? 'held it' : <strong>missed it</strong>;
}
