import { ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';
import { PageHeader } from '@/app/ui/page-header/page-header';
import type { PlanView } from '@/lib/report/plan/plan-view';
import type { LeftOut } from '@/lib/report/plan/planning';
import styles from './plan.module.css';

/** Before the first unit. */
export function NoUnits() {
  return (
    <>
      <PageHeader title="Cleaning plan" />
      <Empty
        title="No units to plan for yet"
        actions={
          <ButtonLink href="/new-unit" weight="primary">
            Add a unit
          </ButtonLink>
        }
      >
        <p>
          A plan places the cleanings of all units in outages and crew weeks where they cost least. It needs
          units with readings: add one from its datasheet, then import its readings.
        </p>
      </Empty>
    </>
  );
}

/** Units, but none whose fouling can be projected. */
export function NothingToPlan({ leftOut, site }: { leftOut: LeftOut[]; site: string }) {
  return (
    <>
      <PageHeader title="Cleaning plan" context={site} />
      <Empty
        title="Nothing can be planned yet"
        actions={
          <ButtonLink href="/import" weight="primary">
            Import readings
          </ButtonLink>
        }
      >
        <p>A plan needs units whose fouling can be projected. What stands in the way:</p>
        <ul className={styles.leftOut}>
          {leftOut.map(({ tag, reason }) => (
            <li key={tag}>
              <a href={`/units/${encodeURIComponent(tag)}`}>{tag}</a>: {reason}
            </li>
          ))}
        </ul>
      </Empty>
    </>
  );
}

/** Neither an outage nor a crew: there is no time at which anything could be cleaned. */
export function NoPlace({ view }: { view: PlanView }) {
  return (
    <>
      <PageHeader title="Cleaning plan" context={`${view.site} · today ${view.today}`} />
      <Empty title="Say when cleaning is possible">
        <p>
          There is no outage ahead and no crew for cleanings outside outages. State an outage, or the crew’s
          hours a week, in the calendar below; the plan is made as soon as it is saved.
        </p>
      </Empty>
    </>
  );
}
