import Link from 'next/link';
import { ButtonLink } from '@/app/ui/button/button';
import { Notice } from '@/app/ui/notice/notice';
import { Breadcrumb } from '@/app/ui/page-header/breadcrumb';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import type { CostView } from '@/lib/report/unit-cost/cost-view';
import { WorkedStepLines } from '../worked-parts';
import styles from './cost.module.css';
import { CurveSection } from './curve-section';
import { LossTable } from './loss-table';
import { ProjectionSection } from './projection-section';

/** What one unit's fouling costs: how a day's money comes about, what was lost, what is to come, when cleaning is cheapest. */
export function CostScreen({ view }: { view: CostView }) {
  const { tag, unitHref, pricesHref, staleness, missing, known } = view;
  return (
    <>
      <Breadcrumb>
        <Link href="/">Fleet</Link> / <Link href={unitHref}>{tag}</Link> / Cost
      </Breadcrumb>
      <PageHeader
        title={`What fouling costs: ${tag}`}
        actions={
          <span className="screen-only">
            <ButtonLink href={pricesHref} weight="quiet">
              Energy prices
            </ButtonLink>
          </span>
        }
      >
        {known?.curve == null ? null : (
          <p>
            <strong>{known.curve.statement}</strong> {known.curve.flat} {known.curve.outage}
          </p>
        )}
        {staleness.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </PageHeader>
      {missing.map(({ title, text, action }) => (
        <div key={title} className={styles.missing}>
          <Notice title={title}>
            <p>{text}</p>
            {action === null ? null : (
              <p className="screen-only">
                <Link href={action.href}>{action.label}</Link>
              </p>
            )}
          </Notice>
        </div>
      ))}
      {known === null ? null : <Known known={known} />}
    </>
  );
}

function Known({ known }: { known: NonNullable<CostView['known']> }) {
  const { chain, table, projection, curve } = known;
  return (
    <>
      {chain === null ? null : (
        <Section
          id="chain"
          title={`How a day’s cost comes about: ${chain.day}`}
          lead={
            <p>
              The newest day with a figure, from its temperatures to its money; ± is one standard uncertainty.
            </p>
          }
        >
          {chain.steps.map((step) => (
            <WorkedStepLines key={step.id} step={step} />
          ))}
        </Section>
      )}
      <Section
        id="lost"
        title="What was lost"
        lead={
          <p>
            Each day at the price of that day. Up to seven days without a figure count as lying between the
            days beside them; longer gaps count as nothing lost. ± is one standard uncertainty.
          </p>
        }
      >
        <LossTable caption="Losses so far" head="Period" rows={table.periods} />
        <LossTable caption="Losses month by month" head="Month" rows={table.months} />
      </Section>
      <ProjectionSection projection={projection} kept={known.kept} />
      {curve === null ? null : (
        <CurveSection
          curve={curve}
          isTable={known.isTable}
          toggleHref={known.toggleHref}
          fileName={known.fileName}
        />
      )}
    </>
  );
}
