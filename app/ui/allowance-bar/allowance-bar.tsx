import styles from './allowance-bar.module.css';

type Props = {
  /** Shares of the limit: 0 is clean, 1 is the limit. */
  used: number;
  uncertainty: number | null;
  heading: { p10: number; p90: number } | null;
  headingText: string;
  usedText: string;
  limitText: string;
  summary: string;
};

/** Room to the right of the limit, as a share of it. */
const BEYOND = 0.25;
/** Beyond this many limits nobody needs to see how far [-]. */
const LONGEST = 3;
/** Where the scale begins: a little below clean, as a value may be below zero. */
const BELOW = 0.06;

/** Where the value stands between clean and limit, how sure that is, and where it is heading: a bar, not a dial. */
export function AllowanceBar({
  used,
  uncertainty,
  heading,
  headingText,
  usedText,
  limitText,
  summary,
}: Props) {
  const end = Math.max(
    1 + BEYOND,
    Math.min(Math.max(used + (uncertainty ?? 0), heading?.p90 ?? 0) + 0.05, LONGEST),
  );
  const at = (share: number) => ((Math.min(Math.max(share, -BELOW), end) + BELOW) / (end + BELOW)) * 100;
  const span = (from: number, to: number) => ({
    left: `${at(from)}%`,
    width: `${Math.max(at(to) - at(from), 0.4)}%`,
  });
  return (
    <div className={styles.bar} role="img" aria-label={summary}>
      <div className={styles.track}>
        <div className={styles.scale} style={span(0, 1)} />
        {heading === null ? null : (
          <div className={styles.heading} style={span(heading.p10, heading.p90)} title={headingText} />
        )}
        <div className={styles.value} style={span(Math.min(0, used), Math.max(0, used))} />
        {uncertainty === null ? null : (
          <div className={styles.spread} style={span(used - uncertainty, used + uncertainty)} />
        )}
        <div className={styles.limit} style={{ left: `${at(1)}%` }} />
      </div>
      <div className={styles.labels} aria-hidden="true">
        <span style={{ left: `${at(0)}%` }} className={styles.clean}>
          clean
        </span>
        <span style={{ left: `${at(1)}%` }} className={styles.limitLabel}>
          {limitText}
        </span>
      </div>
      <p className={styles.words} aria-hidden="true">
        <strong>{usedText}</strong> of the allowance used{heading === null ? '' : `; ${headingText}`}
      </p>
    </div>
  );
}
