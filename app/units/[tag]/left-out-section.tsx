import { Section } from '@/app/ui/section/section';
import { TimeStrip } from '@/app/ui/time-strip/time-strip';
import { formatNumber } from '@/lib/report/format/figure';
import type { TimeAxis } from '@/lib/report/format/time-axis';
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
              summary: `${entry.name}: ${entry.count} of ${readings} readings, in ${entry.spans.length} stretches.`,
            }))}
          />
          <dl className={styles.advice}>
            {reasons.map((entry) => (
              <Advice key={entry.reason} entry={entry} />
            ))}
          </dl>
          {readings - accepted < reasons.reduce((sum, { count }) => sum + count, 0) ? (
            <p className={styles.note}>A reading can have several reasons and then counts under each.</p>
          ) : null}
        </>
      )}
    </Section>
  );
}

function Advice({ entry }: { entry: LeftOutReason }) {
  return (
    <div>
      <dt>{entry.name}</dt>
      <dd>
        {entry.meaning} <strong>{entry.advice}</strong>
      </dd>
    </div>
  );
}

function sentence({ readings, accepted, usable }: LeftOut, period: string): string {
  if (readings === 0) return `No reading arrived in this period (${period}).`;
  const left = readings - accepted;
  const counted = `${formatNumber(accepted, 0)} of ${formatNumber(readings, 0)} readings count (${percent(usable ?? 0)})`;
  return left === 0
    ? `${counted}: nothing was left out.`
    : `${counted}; ${formatNumber(left, 0)} were left out.`;
}

function percent(share: number): string {
  const size = share * 100;
  return `${formatNumber(size, size > 0 && size < 10 ? 1 : 0)} %`;
}
