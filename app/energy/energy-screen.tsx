import Link from 'next/link';
import { ButtonLink } from '@/app/ui/button/button';
import { DownloadLink } from '@/app/ui/download-link/download-link';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import type { EnergyView } from '@/lib/report/energy/energy-view';
import { countOf } from '@/lib/report/format/words';
import styles from './energy.module.css';
import { EnergyEmpty } from './energy-empty';
import { HeadFigures } from './head-figures';
import { MonthsFigure } from './months-figure';
import { MonthsTable } from './months-table';
import { PeriodAndSite } from './period-and-site';
import { PlannedPart } from './planned-part';
import { ReturnedPart } from './returned-part';
import { Uncounted } from './uncounted';
import { UnitTable } from './unit-table';
import { WherePart } from './where-part';

/** What dirty exchangers cost, where, month by month; what cleanings returned and planned ones will save. */
export function EnergyScreen({ view, isOneSiteOnly }: { view: EnergyView; isOneSiteOnly: boolean }) {
  if (!view.hasResults) return <EnergyEmpty hasUnits={view.units > 0} />;
  const { control, headline, months } = view;
  return (
    <div className={styles.page}>
      <PageHeader
        title="Energy and money"
        context={`${view.site === null ? '' : `${view.site} · `}${countOf(view.units, 'unit')} · ${control.period} · today ${view.today}`}
        actions={
          <>
            <ButtonLink href="/energy/prices" weight="quiet">
              Prices
            </ButtonLink>
            <ButtonLink href={control.monthHref}>Monthly page</ButtonLink>
          </>
        }
      >
        <p>
          <strong>{headline.main}</strong>
        </p>
        {view.staleness.map((line) => (
          <p key={line}>{line}</p>
        ))}
        {isOneSiteOnly ? <p>A fleet of this size is shown site by site.</p> : null}
      </PageHeader>
      <PeriodAndSite view={view} isOneSiteOnly={isOneSiteOnly} />
      <HeadFigures headline={headline} />
      <Section
        id="units"
        title="Which units"
        lead={<p>Each unit’s page shows how its figure was worked out.</p>}
        actions={<DownloadLink href={control.csvHref} of="these figures" />}
      >
        {view.lists.map((list) => (
          <UnitTable key={list.currency} list={list} />
        ))}
        <Uncounted rows={view.uncounted} />
      </Section>
      <WherePart view={view} />
      <Section id="months" title="Month by month">
        <MonthsFigure series={months.series} />
        <details className={styles.details}>
          <summary>The same as a table</summary>
          <MonthsTable months={months} />
        </details>
      </Section>
      <ReturnedPart returned={view.returned} href={view.cleaningsHref} period={control.period} />
      <PlannedPart planned={view.planned} />
      <p className={styles.note}>
        Heat not transferred is the duty of the clean unit at each day’s own inlets and flows less its actual
        duty. Energy bought in its place is that heat over the efficiency or COP of what makes it, and the
        extra input of pumps, at the price of each day. Up to 7 days between two with figures are taken along
        the line between them; other days without figures are not counted. ± is one standard uncertainty, of
        the fouling resistance alone. A cleaning’s return is a floor: without it the loss would have gone on
        rising. <Link href="/energy/prices">Prices and CO2e factors</Link> are dated.
      </p>
    </div>
  );
}
