import type { KeptFile } from '@/lib/report/work-list/kept-files';
import styles from './work.module.css';

/** Files kept with a cleaning, to be saved. */
export function FileList({ files }: { files: KeptFile[] }) {
  if (files.length === 0) return null;
  return (
    <ul className={styles.lines}>
      {files.map(({ id, name, size, href }) => (
        <li key={id}>
          <a href={href} download>
            {name}
          </a>{' '}
          <span className={styles.size}>{size}</span>
        </li>
      ))}
    </ul>
  );
}
