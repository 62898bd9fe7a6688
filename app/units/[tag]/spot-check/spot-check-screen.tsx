import Link from 'next/link';
import { ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';
import { Breadcrumb } from '@/app/ui/page-header/breadcrumb';
import { PageHeader } from '@/app/ui/page-header/page-header';
import type { SpotCheckView } from '@/lib/report/spot-check/spot-check-view';
import styles from './spot-check.module.css';
import { SpotCheckForm } from './spot-check-form';
import { SpotCheckResult } from './spot-check-result';

/** One set of readings taken by hand at a unit: typed in, worked out, printed, and not stored. */
export function SpotCheckScreen({ view }: { view: SpotCheckView }) {
  const { tag, service, site, unitHref, form, last, result } = view;
  const isBlank = result === null && form.faults === 0;
  return (
    <div className={styles.page}>
      <Breadcrumb>
        <Link href="/">Fleet</Link> / <Link href={unitHref}>{tag}</Link> / Spot check
      </Breadcrumb>
      <PageHeader
        title={`Spot check of ${tag}`}
        context={[service, site].filter((part) => part !== null).join(' · ')}
      >
        <p className="screen-only">
          One set of readings taken at the unit, worked out against its datasheet. It is not a logged reading
          and is not stored: the address of this page holds what you typed, and a link to it shows the same.
        </p>
        <p className={styles.caution}>
          Hand measurements near hot surfaces and rotating equipment: follow your site’s rules.
        </p>
      </PageHeader>
      <SpotCheckForm key={formKey(view)} form={form} last={isBlank ? null : last} />
      {isBlank ? (
        <Empty
          title="Nothing to work out yet"
          actions={
            last === null ? null : <ButtonLink href={last.href}>Start from the last reading</ButtonLink>
          }
        >
          <p>
            Type what your instruments show. Four temperatures and two flows give everything with a
            heat-balance check; with one value missing it is inferred from the others and marked so.
          </p>
          <p>
            {last === null
              ? 'This unit has no accepted reading yet to start from.'
              : `The newest accepted reading is that of ${last.time}.`}
          </p>
        </Empty>
      ) : null}
      {result === null ? null : <SpotCheckResult result={result} by={form.by} note={form.note} />}
    </div>
  );
}

/** Fields keep what is typed until another address brings other values. */
function formKey({ form }: SpotCheckView): string {
  const fields = [...form.sides.flatMap((side) => side.fields), ...form.instruments];
  return [...fields.flatMap(({ value, unit }) => [value, unit]), form.at.value, form.by, form.note].join('|');
}
