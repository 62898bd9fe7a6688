import { ButtonLink } from '@/app/ui/button/button';
import { DownloadLink } from '@/app/ui/download-link/download-link';
import { Empty } from '@/app/ui/empty/empty';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import type { CleaningsView } from '@/lib/report/cleanings/cleanings-view';
import { countOf } from '@/lib/report/format/words';
import styles from './cleanings.module.css';
import { CleaningsPeriod } from './cleanings-period';
import { CleaningsTable, MOST_ROWS } from './cleanings-table';
import { MethodsSection } from './methods-section';
import { ProbableTable } from './probable-table';

/** What cleanings did and whether they paid; which method does best; falls that may have been cleanings. */
export function CleaningsScreen({ view }: { view: CleaningsView }) {
  if (view.units === 0) return <NoUnits />;
  return (
    <>
      <PageHeader
        title="Cleanings"
        context={`${countOf(view.units, 'unit')} · today ${view.today}`}
        actions={<CleaningsPeriod view={view} />}
      >
        <p>
          {view.totals.main}{' '}
          {view.totals.money.map((sentence) => (
            <strong key={sentence} className={styles.answer}>
              {sentence}
            </strong>
          ))}
        </p>
        {view.totals.leftOut.map((line) => (
          <p key={line} className={styles.leftOut}>
            {line}
          </p>
        ))}
        {view.staleness.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </PageHeader>
      {view.probable.length === 0 ? null : (
        <Section
          id="probable"
          title={`Waiting for an answer: ${countOf(view.probable.length, 'probable cleaning')}`}
          lead={
            <p>
              Falls of the fouling that nobody has recorded a cleaning for. Until a person says what they were
              they count in no total here.
            </p>
          }
        >
          <ProbableTable rows={view.probable} />
        </Section>
      )}
      <Section
        id="done"
        title={`Done ${view.period}`}
        actions={view.rows.length === 0 ? null : <DownloadLink href={view.csvHref} of="these cleanings" />}
      >
        {view.rows.length === 0 ? (
          <p className={styles.none}>
            No cleaning is recorded {view.period}. One is recorded on the page of its unit, or by{' '}
            <code>npx cleanby cleaned</code>.
          </p>
        ) : (
          <>
            <CleaningsTable rows={view.rows} foulingUnit={view.foulingUnit} />
            {view.rows.length > MOST_ROWS ? (
              <p className={styles.none}>
                The latest {MOST_ROWS} of {view.rows.length} are shown; the file has all.
              </p>
            ) : null}
            <p className={styles.note}>
              What a cleaning was worth is a floor: the duty of each day until the next cleaning or today,
              less what the unit would have transferred at the same inlets and flows had it stayed as fouled
              as just before. Without it the fouling would have gone on growing, and days without figures are
              not counted. Energy is priced as the datasheet states.
            </p>
          </>
        )}
      </Section>
      <MethodsSection methods={view.methods} />
      <p className={styles.note}>
        Opening, isolating, draining or chemically cleaning equipment can kill: isolate, depressurise, drain,
        cool and verify; check chemical compatibility; follow local codes, the maker’s instructions and
        licensed practice.
      </p>
    </>
  );
}

function NoUnits() {
  return (
    <>
      <PageHeader title="Cleanings" />
      <Empty
        title="No cleanings yet"
        actions={
          <ButtonLink href="/new-unit" weight="primary">
            Add a unit
          </ButtonLink>
        }
      >
        <p>
          Each cleaning gets its result here: fouling before and after, what that was worth since, and what it
          cost. It needs a unit, its readings, and the cleanings recorded among them.
        </p>
      </Empty>
    </>
  );
}
