import Link from 'next/link';
import type { ImportView } from '@/lib/report/import/import-view';
import { CopyButton } from './copy-button';
import styles from './import.module.css';

/** How a readings file looks, with the header to copy and a template to fill in. */
export function FileHelp({ template, isOpen }: { template: ImportView['template']; isOpen?: boolean }) {
  const { header, example, csv } = template;
  return (
    <details className={styles.help} open={isOpen}>
      <summary>How the file should look</summary>
      <p>
        One row per unit and time, each column with its unit of measure in brackets. An empty cell means not
        measured; leave out columns you do not log.
      </p>
      <pre className={styles.sample}>
        <code>
          {header}
          {'\n'}
          {example}
        </code>
      </pre>
      <p className={styles.actions}>
        <CopyButton text={header} label="Copy the header" />
        <a
          className={styles.download}
          href={`data:text/csv;charset=utf-8,${encodeURIComponent(csv)}`}
          download="readings-template.csv"
        >
          Download as a template (CSV)
        </a>
      </p>
      <p>
        Also read: <code>time,sensor,value</code> with a sensor per row, and plant-wide files with a column
        per sensor, named such as <code>E-101.hot_in[Cel]</code> or matched to units once the file is chosen.
        Comma, semicolon or tab between fields, decimal point or comma, several header rows, XLSX, JSON lines,
        gzip; times as the plant writes them. Words such as Bad or No Data count as not measured.
      </p>
      <p>
        Larger files: <code>npx cleanby import FILE.csv</code>. A folder that is filled by itself:{' '}
        <code>npx cleanby watch FOLDER</code>. Programs: <Link href="/api-reference">the HTTP API</Link>.
      </p>
    </details>
  );
}
