import { Notice } from '../notice/notice';
import type { Problem } from './problem';
import styles from './problem.module.css';

/** What was refused, and for each field what is wrong and what to do. */
export function ProblemNotice({ title, problem }: { title: string; problem: Problem }) {
  const told = problem.errors.filter(({ message }) => message !== problem.detail);
  return (
    <Notice kind="problem" title={title}>
      <p>{problem.detail}</p>
      {told.length === 0 ? null : (
        <ul className={styles.faults}>
          {told.map(({ field, message, line }) => (
            <li key={`${line} ${field} ${message}`}>
              {line ? `Line ${line}, ` : ''}
              <strong>{field}</strong>: {message}
            </li>
          ))}
        </ul>
      )}
    </Notice>
  );
}
