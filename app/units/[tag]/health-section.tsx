import Link from 'next/link';
import { Section } from '@/app/ui/section/section';
import type { HealthView } from '@/lib/report/unit/health-view';
import styles from './health.module.css';

type Props = {
  health: HealthView | null;
  /** Whether sensors are ranked as suspects further down. */
  hasSuspects: boolean;
};

/** How far the data behind every figure of the page can be believed. */
export function HealthSection({ health, hasSuspects }: Props) {
  if (health === null) return null;
  const { usable, worst, suspectSince, balance } = health;
  return (
    <Section id="health" title="Data health">
      <dl className={styles.list}>
        <dt>Usable</dt>
        <dd>{usable}</dd>
        <dt>Worst reason</dt>
        <dd>
          {worst} <Link href="#left-out">Reason by reason</Link>
        </dd>
        <dt>Suspect since</dt>
        <dd>{suspectSince ?? 'nothing makes the data suspect'}</dd>
        <dt>Heat balance</dt>
        <dd>
          {balance} {hasSuspects ? <Link href="#certainty">Suspects, ranked</Link> : null}
        </dd>
      </dl>
    </Section>
  );
}
