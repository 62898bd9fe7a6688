import { Button } from '@/app/ui/button/button';
import { formatNumber } from '@/lib/report/format/figure';
import styles from './plan.module.css';
import type { Solver } from './use-solver';

/** That the solver runs, for how long it has and may, and the way to stop it. */
export function SolveProgress({ solver, timeLimit }: { solver: Solver; timeLimit: number }) {
  const { elapsed, cancel } = solver;
  if (elapsed === null) return null;
  return (
    <div className={styles.progress}>
      <label>
        Making a plan
        <progress max={timeLimit} value={Math.min(elapsed, timeLimit)} />
      </label>
      <span>
        {formatNumber(elapsed, 1)} s; the search takes at most {formatNumber(timeLimit, 0)} s
      </span>
      <Button onClick={cancel}>Cancel</Button>
    </div>
  );
}
