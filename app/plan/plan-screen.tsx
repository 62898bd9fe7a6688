import { Section } from '@/app/ui/section/section';
import { CAUTION_HEAD, CAUTIONS } from '@/lib/report/plan/cautions';
import type { PlanView } from '@/lib/report/plan/plan-view';
import type { LeftOut, Planning } from '@/lib/report/plan/planning';
import { CalendarSection } from './calendar-section';
import styles from './plan.module.css';
import { PlanBoard } from './plan-board';
import { NoPlace, NothingToPlan, NoUnits } from './plan-empty';

type Props = { planning: Planning; view: PlanView | null; person: string };

/** The planner's page: the plan on the fleet's time axis, what it is compared with, the calendar it is made from. */
export function PlanScreen({ planning, view, person }: Props) {
  if (planning.fleet.units.length === 0) return <NoUnits />;
  if (view === null) return <NothingToPlan leftOut={planning.leftOut} site={planning.site?.name ?? ''} />;
  const hasPlace = view.request.online !== undefined || view.request.outages.length > 0;
  return (
    <div className={styles.page}>
      {hasPlace ? (
        <PlanBoard key={keyOf(view)} view={view} acceptance={{ person, after: planning.accepted?.id ?? 0 }} />
      ) : (
        <NoPlace view={view} />
      )}
      <CalendarSection
        key={`calendar ${view.site}`}
        place={{ site: view.site, timeZone: view.desk.timeZone, revision: planning.calendarRevision }}
        stored={view.calendar}
        tags={view.rows.map(({ tag }) => tag)}
        isOpen={!hasPlace}
      />
      <LeftOutUnits leftOut={view.leftOut} />
      <aside className={styles.caution} aria-label="Cautions">
        <strong>{CAUTION_HEAD}</strong> {CAUTIONS.join(' ')}
      </aside>
    </div>
  );
}

/** Another question, or units that are cleaned otherwise, begin another board. */
function keyOf({ request, desk }: PlanView): string {
  const { from, units } = desk.input;
  return JSON.stringify([request, from, units.map(({ tag, asOf, cleaning }) => [tag, asOf, cleaning])]);
}

function LeftOutUnits({ leftOut }: { leftOut: LeftOut[] }) {
  if (leftOut.length === 0) return null;
  return (
    <Section id="left-out" title="Not in the plan" lead="Nothing can be planned for these units yet.">
      <ul className={styles.leftOut}>
        {leftOut.map(({ tag, reason }) => (
          <li key={tag}>
            <a href={`/units/${encodeURIComponent(tag)}`}>{tag}</a>: {reason}
          </li>
        ))}
      </ul>
    </Section>
  );
}
