import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import type { SuspectsView } from '@/lib/report/unit/period-suspects';
import type { BudgetView, CertaintyView } from '@/lib/report/unit/uncertainty-budget';
import styles from './certainty.module.css';

/** What the uncertainty of Rf is made of, what a better sensor would buy, and whom a balance that is off makes suspect. */
export function BudgetSection({ certainty }: { certainty: CertaintyView | null }) {
  if (certainty === null) return null;
  return (
    <Section id="certainty" title="What limits the certainty">
      {certainty.budget === null ? null : <Budget budget={certainty.budget} />}
      {certainty.suspects === null ? null : <Suspects suspects={certainty.suspects} />}
    </Section>
  );
}

function Budget({ budget: { sentence, basis, bought, rows } }: { budget: BudgetView }) {
  return (
    <>
      <p className={styles.sentence}>{sentence}</p>
      <div className={styles.table}>
        <Table
          caption="Uncertainty budget of the fouling resistance, the largest share first"
          columns={[
            { key: 'label', head: 'Cause' },
            { key: 'has', head: 'Standard uncertainty' },
            { key: 'share', head: 'Share of u²(Rf), a day', isNumber: true },
            { key: 'systematic', head: 'of it systematic', isNumber: true },
            { key: 'oneReading', head: 'Share, one reading', isNumber: true },
            { key: 'halved', head: 'If halved', isNumber: true },
            { key: 'better', head: 'With a better one', isNumber: true },
          ]}
          rowHead="label"
          rows={rows.map(({ key, share, shareText, ...cells }) => ({
            key,
            cells: { ...cells, share: <Bar share={share} text={shareText} /> },
          }))}
        />
      </div>
      <p className={styles.note}>If halved, and with a better one: {bought}.</p>
      <p className={styles.note}>{basis}</p>
    </>
  );
}

function Suspects({ suspects }: { suspects: SuspectsView }) {
  return (
    <div className={styles.suspects}>
      <h3>The heat balance is off: suspects</h3>
      <p className={styles.sentence}>{suspects.lead}</p>
      <Table
        caption="Suspects for the heat balance, the best explanation first"
        columns={[
          { key: 'label', head: 'Sensor' },
          { key: 'bias', head: 'Would read too much by', isNumber: true },
          { key: 'share', head: 'χ² explained', isNumber: true },
          { key: 'standing', head: 'Standing' },
        ]}
        rowHead="label"
        rows={suspects.rows.map(({ key, share, explained, ...cells }) => ({
          key,
          cells: { ...cells, share: <Bar share={share} text={explained} /> },
        }))}
      />
      <p className={styles.note}>{suspects.note}</p>
    </div>
  );
}

/** A plain length with its number beside it: the number says it, the length lets the eye compare. */
function Bar({ share, text }: { share: number; text: string }) {
  return (
    <span className={styles.share}>
      <span className={styles.track} aria-hidden="true">
        <span className={styles.length} style={{ width: `${Math.min(1, share) * 100}%` }} />
      </span>
      {text}
    </span>
  );
}
