import type { State } from '@/lib/contract/results';
import { STATE_WORDS } from '@/lib/report/format/words';
import styles from './state-mark.module.css';

/**
 * The shape of a state: ring for clean, ring with a level for fouling (both grey), diamond near the limit, square over it,
 * cross without data.
 */
export function StateShape({ state, size = 12 }: { state: State; size?: number }) {
  return (
    <svg className={styles[state]} width={size} height={size} viewBox="0 0 12 12" aria-hidden="true">
      <title>{STATE_WORDS[state]}</title>
      {SHAPES[state]}
    </svg>
  );
}

/** Shape and word of a state. */
export function StateMark({ state }: { state: State }) {
  return (
    <span className={`${styles.mark} ${styles[`${state}-text`]}`}>
      <StateShape state={state} />
      <span>{STATE_WORDS[state]}</span>
    </span>
  );
}

const SHAPES = {
  clean: <circle cx="6" cy="6" r="4" fill="none" stroke="currentColor" strokeWidth="1.5" />,
  fouling: (
    <>
      <circle cx="6" cy="6" r="4" fill="none" stroke="currentColor" strokeWidth="1.5" />
      <path d="M2 6a4 4 0 0 0 8 0z" fill="currentColor" />
    </>
  ),
  'near-limit': <path d="M6 0.5 11.5 6 6 11.5 0.5 6z" fill="currentColor" />,
  'over-limit': <path d="M1 1h10v10H1z" fill="currentColor" />,
  'no-data': <path d="M2 2l8 8M10 2l-8 8" fill="none" stroke="currentColor" strokeWidth="2.2" />,
};
