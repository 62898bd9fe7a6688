import { ButtonLink } from '@/app/ui/button/button';
import { Empty } from '@/app/ui/empty/empty';
import styles from './unit.module.css';

/** A unit that was registered and has no readings yet: how to bring them in. */
export function NoReadings({ tag }: { tag: string }) {
  return (
    <div className={styles.empty}>
      <Empty title="No readings yet" actions={<ButtonLink href="/import">Import readings</ButtonLink>}>
        <p>
          The datasheet is here; what is missing is what the plant logs: four temperatures and two flows, a
          row per time, as CSV. Fewer sensors give a lesser result.
        </p>
        <p>
          Use the tag <strong>{tag}</strong> in the file, upload it under Import, or run{' '}
          <code>npx cleanby import FILE.csv</code>, then <code>npx cleanby analyse</code>.
        </p>
      </Empty>
    </div>
  );
}
