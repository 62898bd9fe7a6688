import type { HindcastPicture, RecordView } from '@/lib/report/unit/record-view';
import styles from './record.module.css';

const percent = (share: number) => `${(share * 100).toFixed(2)}%`;

/** A band from P10 to P90 with a tick at P50, on days from the day that came: the line in the middle. */
export function HindcastBar({ picture }: { picture: HindcastPicture | null }) {
  return (
    <span className={styles.lane} aria-hidden="true">
      {picture === null ? null : (
        <>
          <span
            className={`${styles.band} ${picture.isOpen ? styles.open : ''}`}
            style={{ left: percent(picture.from), width: percent(picture.to - picture.from) }}
          />
          {picture.middle === null ? null : (
            <span className={styles.tick} style={{ left: percent(picture.middle) }} />
          )}
        </>
      )}
      <span className={styles.truth} />
    </span>
  );
}

/** The scale over the pictures. */
export function HindcastScale({ scale }: { scale: RecordView['scale'] }) {
  return (
    <span className={styles.scale}>
      <span className="unseen">Picture: days from the day it came, </span>
      <span>{scale.least}</span>
      <span>it came</span>
      <span>{scale.greatest}</span>
    </span>
  );
}
