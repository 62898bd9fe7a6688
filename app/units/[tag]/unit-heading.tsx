import Link from 'next/link';
import { Allowed } from '@/app/access/rights';
import { AllowanceBar } from '@/app/ui/allowance-bar/allowance-bar';
import { ButtonLink } from '@/app/ui/button/button';
import { Breadcrumb } from '@/app/ui/page-header/breadcrumb';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { StateMark } from '@/app/ui/state-mark/state-mark';
import { Value } from '@/app/ui/value/value';
import { changesHref } from '@/lib/report/changes/changes-address';
import { formatNumber } from '@/lib/report/format/figure';
import type { AllowanceBar as Bar } from '@/lib/report/unit/allowance-bar';
import { HEADING_DAYS } from '@/lib/report/unit/allowance-bar';
import type { MainFigure } from '@/lib/report/unit/main-figures';
import type { UnitHeader } from '@/lib/report/unit/unit-header';
import styles from './unit.module.css';

type Props = { header: UnitHeader; workedHref: string; spotCheckHref: string };

/** What the unit is, how it stands and until when, with its main figures. */
export function UnitHeading({ header, workedHref, spotCheckHref }: Props) {
  const { tag, service, site, description, state, statement, sureness, age, bar, figures } = header;
  return (
    <>
      <Breadcrumb>
        <Link href="/">Fleet</Link> / {tag}
      </Breadcrumb>
      <PageHeader
        title={tag}
        context={[service, site].filter((part) => part !== null).join(' · ')}
        actions={
          <span className="screen-only">
            <ButtonLink href={spotCheckHref} weight="quiet">
              Spot check
            </ButtonLink>
            <Allowed right="changes">
              <ButtonLink href={changesHref({ name: tag })} weight="quiet">
                Changes<span className="unseen"> of {tag}</span>
              </ButtonLink>
            </Allowed>
          </span>
        }
      >
        <p className={styles.description}>{description}</p>
      </PageHeader>
      <div className={styles.judgement}>
        <div className={styles.words}>
          {state === null ? null : <StateMark state={state} />}
          <p className={styles.statement}>
            {statement.map(({ text, isStrong }) => (isStrong ? <strong key={text}>{text}</strong> : text))}{' '}
            {state === null ? null : (
              <Link className={`${styles.how} screen-only`} href={workedHref.replace('{step}', 'clean-by')}>
                How was this worked out?
              </Link>
            )}
          </p>
          {sureness === null ? null : (
            <p className={styles.age}>
              {sureness}{' '}
              <Link className="screen-only" href="#record">
                Its record
              </Link>
            </p>
          )}
          <p className={styles.age}>{age ?? 'No reading has arrived yet.'}</p>
        </div>
        {bar === null ? null : <AllowanceBar {...bar} headingText={headingText(bar)} />}
      </div>
      {age === null ? null : (
        <dl className={styles.figures}>
          {figures.map((figure) => (
            <MainNumber key={figure.label} main={figure} workedHref={workedHref} />
          ))}
        </dl>
      )}
    </>
  );
}

function MainNumber({ main, workedHref }: { main: MainFigure; workedHref: string }) {
  return (
    <div>
      <dt>{main.label}</dt>
      <dd>
        <Value figure={main.figure} when={main.when ?? undefined} missing={main.missing} />
        {main.step === null ? null : (
          <Link
            className={`${styles.how} screen-only`}
            href={workedHref.replace('{step}', main.step)}
            aria-label={`${main.label}: how was this worked out?`}
          >
            How?
          </Link>
        )}
        {main.moreHref === undefined ? null : (
          <Link
            className={`${styles.how} screen-only`}
            href={main.moreHref}
            aria-label={`${main.label}: what fouling costs`}
          >
            What it costs
          </Link>
        )}
      </dd>
    </div>
  );
}

function headingText({ heading }: Bar): string {
  if (heading === null) return '';
  const percent = (share: number) => formatNumber(share * 100, 0);
  return `projected ${percent(heading.p10)} – ${percent(heading.p90)} % in ${HEADING_DAYS} days (P10 – P90)`;
}
