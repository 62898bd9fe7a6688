import { Notice } from '@/app/ui/notice/notice';
import { Table } from '@/app/ui/table/table';
import type { ProposalView } from '@/lib/report/reference/proposal-view';
import type { ReferenceForm } from '@/lib/report/reference/reference-view';
import { AcceptForm } from './accept-form';
import styles from './reference.module.css';

type Props = { tag: string; proposal: ProposalView; form: ReferenceForm };

/** What was worked out: the factors with their evidence, the effect on today, and the form that accepts it. */
export function ProposalSection({ tag, proposal, form }: Props) {
  const { method, factors, holds, learnedFrom, refusal, comparison, verdict, effect } = proposal;
  return (
    <section id="proposal" className={styles.proposal} aria-labelledby="proposal-title">
      <h3 id="proposal-title">Worked out, not stored: {method}</h3>
      <dl className={styles.facts}>
        {factors === null ? null : <Fact term="Factors on the clean resistances" said={factors} />}
        {learnedFrom === null ? null : <Fact term="Learned from" said={learnedFrom} />}
        <Fact term="Holds" said={holds} />
      </dl>
      {refusal.length === 0 ? null : (
        <Notice kind="problem" title="It cannot be accepted">
          {refusal.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </Notice>
      )}
      {comparison.length === 0 ? null : <Comparison rows={comparison} />}
      {verdict === null ? null : <p className={styles.said}>{verdict}</p>}
      {effect.length === 0 ? null : (
        <Table
          caption="What it would change"
          isCaptionShown
          columns={[
            { key: 'label', head: '' },
            { key: 'before', head: 'Now', isNumber: true },
            { key: 'after', head: 'With it', isNumber: true },
          ]}
          rowHead="label"
          rows={effect.map((row) => ({ key: row.label, cells: row }))}
        />
      )}
      {refusal.length === 0 ? <AcceptForm tag={tag} entries={form.entries} after={form.after} /> : null}
    </section>
  );
}

function Fact({ term, said }: { term: string; said: string }) {
  return (
    <div>
      <dt>{term}</dt>
      <dd>{said}</dd>
    </div>
  );
}

function Comparison({ rows }: { rows: ProposalView['comparison'] }) {
  return (
    <Table
      caption="Both ways to learn, from the same readings"
      isCaptionShown
      columns={[
        { key: 'way', head: 'Way' },
        { key: 'factors', head: 'Factors ± standard error from scatter' },
        { key: 'scatter', head: 'Scatter about it', isNumber: true },
      ]}
      rowHead="way"
      rows={rows.map((row) => ({ key: row.way, cells: row }))}
    />
  );
}
