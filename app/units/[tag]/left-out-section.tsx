import Link from 'next/link';
import { Section } from '@/app/ui/section/section';
import { TimeStrip } from '@/app/ui/time-strip/time-strip';
import { formatNumber } from '@/lib/report/format/figure';
import type { TimeAxis } from '@/lib/report/format/time-axis';
import { countOf } from '@/lib/report/format/words';
import type { LeftOut, LeftOutReason } from '@/lib/report/unit/left-out';
import styles from './unit.module.css';

type Props = { leftOut: LeftOut; axis: TimeAxis; period: string };

/** Which readings do not count, why, when, and what to do about it. */
export function LeftOutSection({ leftOut, axis, period }: Props) {
  const { readings, accepted, reasons } = leftOut;
  return (
    <Section id="left-out" title="Readings left out" lead={<p>{sentence(leftOut, period)}</p>}>
      {reasons.length === 0 ? null : (
        <>
          <TimeStrip
            axis={axis}
            rows={reasons.map((entry) => ({
              key: entry.reason,
              label: entry.name,
              count: `${formatNumber(entry.count, 0)} ${entry.count === 1 ? 'reading' : 'readings'}, ${percent(entry.share)}`,
              spans: entry.spans,
              summary: `${entry.name}: ${entry.count} of ${readings} readings, in ${countOf(entry.spans.length, 'stretch', 'stretches')}.`,
              note: (
                <>
                  {entry.meaning} <strong>{entry.advice}</strong> <Where entry={entry} />
                </>
              ),
            }))}
          />
          {readings - accepted < reasons.reduce((sum, { count }) => sum + count, 0) ? (
            <p className={styles.note}>A reading can have several reasons and then counts under each.</p>
          ) : null}
        </>
      )}
    </Section>
  );
}

/** The longest stretch of a reason, with the ways to see it and to overrule the checks there. */
function Where({ entry: { name, longest, others } }: { entry: LeftOutReason }) {
  const also = others === 0 ? '' : `, the longest of ${others + 1} stretches`;
  return (
    <span className={styles.where}>
      <span>{`${longest.words} (${countOf(longest.count, 'reading')}${also})`}</span>
      <Link href={longest.showHref} aria-label={`Show on the charts: ${name}, ${longest.words}`}>
        Show on the charts
      </Link>
      <Link href={longest.judgeHref} aria-label={`Leave out or count in: ${name}, ${longest.words}`}>
        Leave out or count in
      </Link>
    </span>
  );
}

function sentence({ readings, accepted, usable }: LeftOut, period: string): string {
  if (readings === 0) return `No reading arrived in this period (${period}).`;
  const left = readings - accepted;
  const counted = `${formatNumber(accepted, 0)} of ${formatNumber(readings, 0)} readings count (${percent(usable ?? 0)})`;
  return left === 0
    ? `${counted}: nothing was left out.`
    : `${counted}; ${formatNumber(left, 0)} ${left === 1 ? 'was' : 'were'} left out.`;
}

function percent(share: number): string {
  const size = share * 100;
  if (size > 0 && size < 0.1) return 'less than 0.1 %';
  if (size < 100 && size >= 99.5) return 'more than 99 %';
  return `${formatNumber(size, size > 0 && size < 10 ? 1 : 0)} %`;
}
