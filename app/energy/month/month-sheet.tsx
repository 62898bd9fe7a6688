import Link from 'next/link';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { PrintButton } from '@/app/units/[tag]/spot-check/print-button';
import type { MonthView } from '@/lib/report/energy/month-view';
import { HeadFigures } from '../head-figures';
import { MonthsFigure } from '../months-figure';
import styles from './month.module.css';
import { SheetCleanings, SheetPlanned } from './sheet-cleanings';
import { SheetGroups, SheetUnits } from './sheet-tables';

/** One month on one sheet: figures, dearest units, months, what cleanings returned, what is planned. */
export function MonthSheet({ view }: { view: MonthView }) {
  return (
    <article className={styles.sheet}>
      <PageHeader
        title={view.title}
        context={`${view.site ?? 'all sites'} · as of ${view.asOf}${view.isRunning ? ' · this month is not over' : ''}`}
        actions={<Around view={view} />}
      >
        <p>
          <strong>{view.headline.main}</strong>
        </p>
      </PageHeader>
      <HeadFigures headline={view.headline} />
      <div className={`${styles.columns} ${styles.unitsFirst}`}>
        <section aria-labelledby="sheet-units">
          <h2 id="sheet-units">Dearest units</h2>
          {view.lists.map((list) => (
            <SheetUnits key={list.currency} list={list} />
          ))}
          {view.uncounted === '' ? null : <p className={styles.small}>{view.uncounted}</p>}
        </section>
        <div>
          <section aria-labelledby="sheet-months">
            <h2 id="sheet-months">Twelve months</h2>
            <MonthsFigure series={view.bars} />
          </section>
          <section aria-labelledby="sheet-where">
            <h2 id="sheet-where">Where, and what the heat is for</h2>
            <SheetGroups rows={view.groups} />
          </section>
        </div>
      </div>
      <div className={styles.columns}>
        <section aria-labelledby="sheet-returned">
          <h2 id="sheet-returned">What cleanings returned, {view.cleaningsSpan}</h2>
          <SheetCleanings returned={view.returned} />
        </section>
        <section aria-labelledby="sheet-planned">
          <h2 id="sheet-planned">What is planned</h2>
          <SheetPlanned planned={view.planned} />
        </section>
      </div>
      <p className={styles.small}>
        <strong>How it was worked out:</strong> duty of the clean unit at each day’s inlets and flows less its
        actual duty, over the efficiency or COP of what makes up for it, at that day’s price; gaps of up to 7
        days are bridged, longer ones not counted; ± one standard uncertainty, of the fouling resistance
        alone. Returns are floors. Opening or chemically cleaning equipment can kill: isolate, depressurise,
        drain, cool, verify; follow local codes and licensed practice.
      </p>
    </article>
  );
}

function Around({ view }: { view: MonthView }) {
  return (
    <nav className={`${styles.around} screen-only`} aria-label="Months">
      <Link href={view.backHref}>Energy and money</Link>
      <Link href={view.earlierHref}>Earlier month</Link>
      {view.laterHref === null ? null : <Link href={view.laterHref}>Later month</Link>}
      <PrintButton />
    </nav>
  );
}
