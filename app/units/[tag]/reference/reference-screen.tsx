import Link from 'next/link';
import { Notice } from '@/app/ui/notice/notice';
import { Breadcrumb } from '@/app/ui/page-header/breadcrumb';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import type { ReferenceView } from '@/lib/report/reference/reference-view';
import { HistoryTable } from './history-table';
import { ProposalSection } from './proposal-section';
import styles from './reference.module.css';
import { ReferenceForm } from './reference-form';

/** What counts as clean for a unit: what holds now, another one worked out and accepted, and every one before. */
export function ReferenceScreen({ view }: { view: ReferenceView }) {
  const { tag, unitHref, timeZone, inForce, warnings, form, proposal, sensitivity } = view;
  return (
    <div className={styles.page}>
      <Breadcrumb>
        <Link href="/">Fleet</Link> / <Link href={unitHref}>{tag}</Link> / Clean reference
      </Breadcrumb>
      <PageHeader title={`Clean reference of ${tag}`}>
        <p>
          Fouling is what U lacks to a clean unit at the same flows. What counts as clean is therefore part of
          every result: each reference is kept, with what it was learned from, who accepted it and why.
        </p>
      </PageHeader>
      <Section id="in-force" title="What holds now">
        <Table
          caption="What each stretch of the record is judged by"
          columns={[
            { key: 'since', head: 'Since' },
            { key: 'reference', head: 'What counts as clean' },
            { key: 'factors', head: 'Factors on the clean resistances' },
            { key: 'datasheet', head: 'Datasheet' },
          ]}
          rowHead="since"
          rows={inForce.map((row) => ({ key: row.since, cells: row }))}
        />
        {warnings.map((warning) => (
          <Notice key={warning}>{warning}</Notice>
        ))}
      </Section>
      <Section
        id="another"
        title="Work out another"
        lead={<p>Looking stores nothing. Times are local times, {timeZone}.</p>}
      >
        <ReferenceForm key={JSON.stringify(form.entries)} form={form} />
        {proposal === null ? null : <ProposalSection tag={tag} proposal={proposal} form={form} />}
      </Section>
      {sensitivity === null ? null : (
        <Section id="sensitivity" title="What hangs on the films" lead={<p>{sensitivity.lead}</p>}>
          <Table
            caption="Fouling resistance with one assumption moved at a time"
            columns={[
              { key: 'label', head: 'Assumption' },
              { key: 'fouling', head: 'Fouling resistance', isNumber: true },
              { key: 'change', head: 'Change', isNumber: true },
              { key: 'share', head: 'Share of the allowance', isNumber: true },
            ]}
            rowHead="label"
            rows={sensitivity.rows.map((row) => ({ key: row.label, cells: row }))}
          />
        </Section>
      )}
      <HistoryTable rows={view.history} />
    </div>
  );
}
