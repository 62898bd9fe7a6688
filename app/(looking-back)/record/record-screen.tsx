import { DownloadLink } from '@/app/ui/download-link/download-link';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import { countOf } from '@/lib/report/format/words';
import type { RecordView } from '@/lib/report/record/record-view';
import { Choices } from '../choices';
import { ErrorFigure } from './error-figure';
import { MissTable } from './miss-table';
import styles from './record.module.css';
import { RecordEmpty } from './record-empty';
import { SummaryTable } from './summary-table';
import { WideningList } from './widening-list';

/** How past projections did: in a sentence, in a picture, by site and service, and the worst of them. */
export function RecordScreen({ view }: { view: RecordView }) {
  if (!view.hasAny) return <RecordEmpty hasUnits={view.units > 0} widening={view.widening} />;
  const { main, detail } = view.sentence;
  return (
    <>
      <PageHeader
        title="Past projections"
        context={`${countOf(view.units, 'unit')} · today ${view.today}`}
        actions={
          <>
            <Choices label="Made at which share of the cycle" choices={view.lives} />
            <DownloadLink href="/api/v1/record?format=csv" of="all past projections" />
          </>
        }
      >
        <p>
          <strong>{main}.</strong> {detail}
        </p>
        {view.staleness.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </PageHeader>
      <Section
        id="landed"
        title="Where they landed"
        lead={
          <p>
            Each mark is a cycle that has ended, projected again with only what was known when a quarter, half
            and three quarters of it had passed, beside the day on which it came true.
          </p>
        }
        actions={<Choices label="Errors" choices={view.scales} />}
      >
        <ErrorFigure view={view} />
      </Section>
      <Section id="spread" title="What this does to today’s projections">
        <WideningList widening={view.widening} />
      </Section>
      <Section id="misses" title="Furthest outside their band" lead={<p>{missesInWords(view)}</p>}>
        <MissTable rows={view.misses.rows} />
      </Section>
      <Section id="groups" title="By site and service" lead={<p>Made {view.life} through the cycle.</p>}>
        <div className={styles.groups}>
          <SummaryTable caption="By site" nameHead="Site" rows={view.bySite} aim={view.aim} />
          <SummaryTable caption="By service" nameHead="Service" rows={view.byService} aim={view.aim} />
        </div>
      </Section>
      <p className={styles.note}>
        Figures of past cycles are those of today’s clean reference. A cycle cleaned before its limit is
        judged by the day it reached 95 % of its rise. The chance intervals are 95 % (Wilson), one projection
        for each cycle.
      </p>
    </>
  );
}

function missesInWords({ misses, life }: RecordView): string {
  const { rows, count } = misses;
  if (count === 0) return `Made ${life} through the cycle, none came true outside its band.`;
  const shown =
    rows.length < count ? ` The ${rows.length} furthest outside are listed; the file has all.` : '';
  return `Made ${life} through the cycle, ${countOf(count, 'projection')} came true outside ${count === 1 ? 'its' : 'their'} band.${shown}`;
}
