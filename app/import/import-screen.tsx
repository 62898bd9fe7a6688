import { Notice } from '@/app/ui/notice/notice';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import type { ImportView } from '@/lib/report/import/import-view';
import type { IntakeView } from '@/lib/report/import/intake-view';
import { BatchList } from './batch-list';
import { FileHelp } from './file-help';
import { ImportFlow } from './import-flow';
import { NoUnits } from './no-units';
import { ReportSection } from './report-section';
import { SavedList } from './saved-list';
import { WatchedList } from './watched-list';

/** Readings in: a file is looked at, taken as one batch, reported on, and can be taken back. */
export function ImportScreen({ view, intake }: { view: ImportView; intake: IntakeView }) {
  if (!view.hasUnits) return <NoUnits template={view.template} />;
  return (
    <>
      <PageHeader title="Import readings">
        <p>
          Choose a file of what the plant logged, CSV or XLSX. You see how it is read before anything is
          stored; the same file twice changes nothing; an import can be undone.
        </p>
      </PageHeader>
      {view.undone === null ? null : (
        <Notice kind="done" title="Undone">
          {view.undone}
        </Notice>
      )}
      {view.report === null ? null : <ReportSection report={view.report} />}
      <Section id="file" title={view.report === null ? 'File' : 'Import another file'}>
        <ImportFlow
          key={view.report?.batch ?? 'none'}
          tags={view.tags}
          system={view.system}
          timeZone={view.timeZone}
          siteZones={view.siteZones}
          timeZones={view.timeZones}
        />
        <FileHelp template={view.template} />
      </Section>
      {view.batches.length === 0 ? null : (
        <Section id="earlier" title="Earlier imports">
          <BatchList batches={view.batches} timeZone={view.batchesZone} />
        </Section>
      )}
      {intake.mappings.length === 0 ? null : (
        <Section
          id="mappings"
          title="Saved mappings"
          lead="How the columns of the plant’s files belong to units. They are offered for files whose header they fit."
        >
          <SavedList mappings={intake.mappings} />
        </Section>
      )}
      {intake.folders.length === 0 ? null : (
        <Section
          id="watched"
          title="Watched folders"
          lead="What cleanby watch took last. A refused file is tried again when it changes."
        >
          <WatchedList folders={intake.folders} />
        </Section>
      )}
    </>
  );
}
