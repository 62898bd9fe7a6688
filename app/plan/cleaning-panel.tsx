import { useId, useMemo } from 'react';
import { Button } from '@/app/ui/button/button';
import { formatNumber } from '@/lib/report/format/figure';
import { countOf } from '@/lib/report/format/words';
import { type Place, placesFor } from '@/lib/report/plan/draft-places';
import { nextOption } from '@/lib/report/plan/draft-plan';
import { type Spot, tagAt } from '@/lib/report/plan/plan-desk';
import { type PlanTableRow, planTable } from '@/lib/report/plan/plan-table';
import { changeInWords, moneyInWords } from '@/lib/report/plan/plan-words';
import styles from './panel.module.css';
import type { Stage } from './stage';

/** What is known of a cleaning, and everything that can be done to it without dragging. */
export function CleaningPanel({ stage, spot }: { stage: Stage; spot: Spot }) {
  const { desk, board, moves } = stage;
  const tag = tagAt(desk, spot.unit);
  const places = useMemo(() => placesFor(desk, board.draft, spot), [desk, board.draft, spot]);
  const own = planTable(desk, board.draft, board.price).find(
    (row) => row.spot.unit === spot.unit && row.spot.option === spot.option,
  );
  if (own === undefined) return null;
  const clashes = board.price.clashes.filter(({ units }) => units.includes(spot.unit));
  const can = (step: -1 | 1) => nextOption(desk, board.draft, { spot, step }) !== null;
  return (
    <section className={styles.panel} aria-label={`Cleaning of ${tag} on ${own.startWords}`}>
      <p>
        <strong>
          {tag}, {own.startWords}
        </strong>
        , {own.duration}, {own.where}. {factsOf(own, desk.currency)}
      </p>
      {clashes.map(({ words }) => (
        <p key={words} className={styles.clash}>
          ■ {words}
        </p>
      ))}
      <div className={styles.tools}>
        <Button disabled={!can(-1)} onClick={() => moves.step(spot, -1)}>
          ← A place earlier
        </Button>
        <Button disabled={!can(1)} onClick={() => moves.step(spot, 1)}>
          A place later →
        </Button>
        <PlacePick places={places} stage={stage} spot={spot} />
        <Button aria-pressed={own.isLocked} onClick={() => moves.lock(spot)}>
          {own.isLocked ? 'Unlock' : 'Lock'}
        </Button>
        <Button onClick={() => moves.takeOut(spot)}>Take out</Button>
        <Button weight="quiet" onClick={() => board.select(null)}>
          Close
        </Button>
      </div>
    </section>
  );
}

type PickProps = { places: Place[]; stage: Stage; spot: Spot };

function PlacePick({ places, stage, spot }: PickProps) {
  const id = useId();
  return (
    <span className={styles.pick}>
      <label htmlFor={id}>Place</label>
      <select
        id={id}
        value={spot.option}
        onChange={(event) => stage.moves.to(spot, Number(event.target.value))}
      >
        {places.map((place) => (
          <option key={place.option} value={place.option}>
            {placeInWords(place, stage.desk.currency)}
          </option>
        ))}
      </select>
    </span>
  );
}

function placeInWords({ day, where, change, why }: Place, currency: string): string {
  const shut = why.length === 0 ? '' : ` ■ ${why[0]}`;
  return `${day}, ${where}, ${changeInWords(change, currency)}${shut}`;
}

function factsOf(row: PlanTableRow, currency: string): string {
  const before =
    row.cleanBefore === null
      ? 'No limit asks for it within the plan'
      : `It must start before ${row.cleanBefore}${row.daysLate > 0 ? `, ${countOf(row.daysLate, 'day')} earlier` : ''}`;
  const avoided =
    row.saves === null
      ? 'what it avoids has no price'
      : `avoids ${moneyInWords(row.saves, currency)} of expected loss`;
  const method = row.method === null ? '' : `, ${row.method}`;
  return (
    `Why: ${row.reason}. ${before}. Costs ${moneyInWords(row.cost, currency)} with downtime, ` +
    `${avoided}; ` +
    `${formatNumber(row.crewHours, 0)} crew hours${method}.`
  );
}
