import type { ReactNode } from 'react';
import { Button } from '@/app/ui/button/button';
import { TimeChart } from '@/app/ui/chart/time-chart';
import { Notice } from '@/app/ui/notice/notice';
import { Table } from '@/app/ui/table/table';
import type { ImportReport } from '@/lib/contract/import-report';
import { inWords, statusInWords } from '@/lib/report/import/count-words';
import type { PreviewView } from '@/lib/report/import/preview-view';
import styles from './import.module.css';
import { RowsTable } from './rows-table';
import { SetAsideTable } from './set-aside-table';

const CHART_HEIGHT = 150;

type Props = {
  view: PreviewView;
  expected: ImportReport | null;
  onImport: () => void;
  onZone: (zone: string) => void;
  /** The mapping, where the file needs one. */
  children: ReactNode;
};

/** How the file is read, before anything is stored. */
export function PreviewPanel({ view, expected, onImport, onZone, children }: Props) {
  return (
    <>
      <div className={styles.bar}>
        <div>
          <p className={styles.statement}>{view.statement}</p>
          <p className={styles.faint} role="status">
            {view.canImport ? expectedInWords(expected) : ''}
          </p>
        </div>
        <Button weight="primary" onClick={onImport} disabled={!view.canImport}>
          Import
        </Button>
      </div>
      {view.faults.length === 0 ? null : (
        <Notice kind="problem" title="The columns are not clear yet">
          <ul className={styles.list}>
            {view.faults.map((fault) => (
              <li key={fault}>{fault}</li>
            ))}
          </ul>
        </Notice>
      )}
      {view.needsZone ? (
        <Notice title="Some times have no offset">
          <p>Choose above in which zone they are meant; until then those rows are kept aside.</p>
          {view.proposedZone === null ? null : (
            <p className={styles.actions}>
              <Button onClick={() => onZone(view.proposedZone ?? '')}>
                They are in {view.proposedZone}, the zone of the site
              </Button>
            </p>
          )}
        </Notice>
      ) : null}
      {children}
      <div className={view.needsMapping ? undefined : styles.found}>
        <dl className={`${styles.facts} ${view.needsMapping ? styles.factsBeside : ''}`}>
          {view.facts.map(({ label, value }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
        {view.needsMapping ? null : <ColumnsTable view={view} />}
      </div>
      {view.table.rows.length === 0 ? null : <RowsTable table={view.table} />}
      {view.charts.length === 0 ? null : (
        <div className={styles.plots}>
          {view.charts.map((chart) => (
            <figure key={chart.name}>
              <figcaption>
                <h4>
                  {chart.title} <span className={styles.faint}>{chart.unit}</span>
                </h4>
              </figcaption>
              <TimeChart view={chart} height={CHART_HEIGHT} />
            </figure>
          ))}
        </div>
      )}
      {view.setAside.length === 0 ? null : (
        <>
          <h4>{view.setAsideTitle}</h4>
          <SetAsideTable rows={view.setAside} />
        </>
      )}
    </>
  );
}

function expectedInWords(expected: ImportReport | null): string {
  if (expected === null) return 'Counting what would change …';
  const { added, replaced, statusCells } = expected;
  const status = statusCells === undefined ? '' : ` ${statusInWords(statusCells)}`;
  const lead = added === 0 && replaced === 0 ? 'Nothing new.' : 'Would be:';
  return `${lead} ${inWords(expected)}${status}`;
}

function ColumnsTable({ view }: { view: PreviewView }) {
  return (
    <Table
      caption="What each column holds"
      columns={[
        { key: 'name', head: 'Column' },
        { key: 'use', head: 'Holds' },
        { key: 'tag', head: 'Unit' },
        { key: 'quantity', head: 'Quantity' },
        { key: 'unit', head: 'Unit of measure' },
      ]}
      rowHead="name"
      rows={view.columns.map((column, place) => ({ key: `${place}`, cells: column }))}
    />
  );
}
