import { ButtonLink } from '@/app/ui/button/button';
import { DownloadLink } from '@/app/ui/download-link/download-link';
import { Empty } from '@/app/ui/empty/empty';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import { countOf } from '@/lib/report/format/words';
import type { HealthView } from '@/lib/report/health/health-view';
import styles from './health.module.css';
import { HealthTable } from './health-table';
import { ReasonTable } from './reason-table';

/** Sound units listed. */
const MOST_SOUND = 200;

/** How good the data were in the last 30 days: what to do first, what left readings out, who has none. */
export function HealthScreen({ view }: { view: HealthView }) {
  if (view.units === 0) return <NoUnits />;
  const { groups, days } = view;
  const needing = [...groups.suspect, ...groups.few];
  return (
    <>
      <PageHeader
        title="Data health"
        context={`${countOf(view.units, 'unit')} · last ${days} days to ${view.today}`}
        actions={<DownloadLink href="/api/v1/health?format=csv" of="the data health of all units" />}
      >
        <p>
          <strong>{view.sentence}</strong>
        </p>
        {view.staleness.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </PageHeader>
      <Section
        id="to-do"
        title="What to do first"
        lead={<p>Suspect data first, for they may mislead; then those with the fewest usable readings.</p>}
      >
        {needing.length === 0 ? (
          <p className={styles.none}>Nothing: every unit with data has sound ones.</p>
        ) : (
          <HealthTable caption="Units whose data need a person, the worst first" rows={needing} days={days} />
        )}
      </Section>
      {groups['no-data'].length === 0 ? null : (
        <Section id="no-data" title="Without data" lead={<p>Nothing is known of these units today.</p>}>
          <HealthTable caption="Units without usable data" rows={groups['no-data']} days={days} />
        </Section>
      )}
      <Section
        id="reasons"
        title="What left readings out"
        lead={
          <p>
            Readings of the last {days} days, each under the chief reason of its day; standstill is no fault
            and not counted.
          </p>
        }
      >
        {view.reasons.length === 0 ? (
          <p className={styles.none}>No reading was left out.</p>
        ) : (
          <ReasonTable rows={view.reasons} />
        )}
      </Section>
      {groups.fine.length === 0 ? null : (
        <Section id="sound" title={`Sound: ${countOf(groups.fine.length, 'unit')}`}>
          <HealthTable
            caption="Units with sound data"
            rows={groups.fine.slice(0, MOST_SOUND)}
            days={days}
            isShort
          />
          {groups.fine.length > MOST_SOUND ? (
            <p className={styles.none}>The first {MOST_SOUND} are shown; the file has all.</p>
          ) : null}
        </Section>
      )}
    </>
  );
}

function NoUnits() {
  return (
    <>
      <PageHeader title="Data health" />
      <Empty
        title="No data to judge yet"
        actions={
          <ButtonLink href="/new-unit" weight="primary">
            Add a unit
          </ButtonLink>
        }
      >
        <p>
          Every reading is checked before it counts. Once units have readings, this page says which data to
          mend first, and why.
        </p>
      </Empty>
    </>
  );
}
