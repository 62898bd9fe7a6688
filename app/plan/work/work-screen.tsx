import { Choices } from '@/app/(looking-back)/choices';
import { ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import { countOf } from '@/lib/report/format/words';
import type { WorkView } from '@/lib/report/work-list/work-view';
import { CalledOffTable } from './called-off-table';
import { Cautions } from './cautions';
import { DoneTable } from './done-table';
import { Downloads } from './downloads';
import { OpenTable } from './open-table';
import styles from './work.module.css';

/** Dated work out of the accepted plans: what is to be done, what was done and what it did, what was called off. */
export function WorkScreen({ view }: { view: WorkView }) {
  if (view.plans.length === 0) return <NoPlan />;
  return (
    <div className={`print-wide ${styles.page}`}>
      <PageHeader
        title="Work list"
        context={`today ${view.today}`}
        actions={
          <>
            <Choices label="Group open work" choices={view.groupings} />
            <Downloads />
            <span className="screen-only">
              <ButtonLink href={view.printHref}>Sheets to print</ButtonLink>
            </span>
          </>
        }
      >
        <p>{view.sentence}</p>
        {view.plans.map((plan) => (
          <p key={plan} className={styles.soft}>
            {plan}
          </p>
        ))}
        {view.staleness.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </PageHeader>
      <Cautions />
      <OpenWork view={view} />
      {view.done.length === 0 ? null : (
        <Section
          id="done"
          title={`Done: ${countOf(view.done.length, 'cleaning')}`}
          lead={<p>What each did is measured from the readings before and after it; money is a floor.</p>}
        >
          <DoneTable rows={view.done} />
        </Section>
      )}
      {view.calledOff.length === 0 ? null : (
        <Section id="called-off" title={`Called off: ${countOf(view.calledOff.length, 'cleaning')}`}>
          <CalledOffTable rows={view.calledOff} />
        </Section>
      )}
    </div>
  );
}

function OpenWork({ view }: { view: WorkView }) {
  const count = view.open.reduce((sum, { rows }) => sum + rows.length, 0);
  return (
    <Section id="open" title={`To be done: ${countOf(count, 'cleaning')}`}>
      {count === 0 ? (
        <p className={styles.soft}>Nothing is open. A new plan brings new work once it is accepted.</p>
      ) : (
        view.open.map((group) => (
          <div key={group.title} className={styles.group}>
            <h3>{group.title}</h3>
            <OpenTable title={group.title} rows={group.rows} />
          </div>
        ))
      )}
    </Section>
  );
}

function NoPlan() {
  return (
    <>
      <PageHeader title="Work list" />
      <Empty
        title="No plan has been accepted yet"
        actions={
          <ButtonLink href="/plan" weight="primary">
            Make a plan
          </ButtonLink>
        }
      >
        <p>
          Accept a cleaning plan and its cleanings stand here as dated work: to be moved, called off or marked
          done. What each did is then measured from the readings that follow.
        </p>
      </Empty>
    </>
  );
}
