import { Notice } from '@/app/ui/notice/notice';
import type { UnitView } from '@/lib/report/unit-view';
import { BudgetSection } from './budget-section';
import { ChartsSection } from './charts-section';
import { CleaningSection } from './cleaning-section';
import { CyclesSection } from './cycles-section';
import { DatasheetSection } from './datasheet-section';
import { FallNotice } from './fall-notice';
import { HealthSection } from './health-section';
import { JudgingSection } from './judging-section';
import { LeftOutSection } from './left-out-section';
import { LimitsSection } from './limits-section';
import { NoReadings } from './no-readings';
import { RecordSection } from './record-section';
import styles from './unit.module.css';
import { UnitHeading } from './unit-heading';
import { WorkedSection } from './worked-section';

/** One unit: how it stands, the charts behind that, what was left out, the working, its past and its datasheet. */
export function UnitScreen({ view }: { view: UnitView }) {
  return (
    <>
      <UnitHeading header={view.header} workedHref={view.workedHref} spotCheckHref={view.spotCheckHref} />
      {view.falls.length === 0 ? null : (
        <div className={styles.falls}>
          {view.falls.map((question) => (
            <FallNotice key={question.day} question={question} cleaning={view.cleaning} />
          ))}
        </div>
      )}
      {view.staleness.length === 0 ? null : (
        <Notice>
          {view.staleness.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </Notice>
      )}
      {view.installed === null ? null : (
        <Notice title={view.installed.title}>
          {view.installed.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </Notice>
      )}
      {view.illDetermined.length === 0 ? null : (
        <Notice title="U is not well determined">
          {view.illDetermined.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </Notice>
      )}
      <LimitsSection limits={view.limits} />
      {view.hasReadings ? <Evidence view={view} /> : <NoReadings tag={view.header.tag} />}
      <RecordSection record={view.record} />
      <CyclesSection cycles={view.cycles} cleanings={view.cleanings} form={view.cleaning} />
      <CleaningSection form={view.cleaning} />
      <DatasheetSection
        datasheet={view.datasheet}
        editHref={view.editHref}
        timeZone={view.cleaning.timeZone}
      />
    </>
  );
}

function Evidence({ view }: { view: UnitView }) {
  const { period, axis, pickHref } = view;
  const charts = { period, axis, pickHref, charts: view.charts };
  return (
    <>
      <ChartsSection charts={charts} />
      <HealthSection health={view.health} hasSuspects={view.certainty?.suspects != null} />
      <LeftOutSection leftOut={view.leftOut} axis={view.axis} period={view.period.label} />
      <JudgingSection judging={view.judging} hasReadings={view.hasReadings} />
      <BudgetSection certainty={view.certainty} />
      <WorkedSection
        worked={view.worked}
        openHref={view.workedHref}
        closeHref={view.closeWorkedHref}
        spotCheckHref={view.spotCheckHref}
      />
    </>
  );
}
