import Link from 'next/link';
import { Notice } from '@/app/ui/notice/notice';
import { Section } from '@/app/ui/section/section';
import { StateMark } from '@/app/ui/state-mark/state-mark';
import { Table } from '@/app/ui/table/table';
import type { ChangedUnitView, ReportView } from '@/lib/report/import/import-view';
import { setAsideInWords } from '@/lib/report/import/set-aside-words';
import styles from './import.module.css';
import { SetAsideTable } from './set-aside-table';
import { UndoImport } from './undo-import';

/** What an import did: the units with their new answers first, then what was kept aside, then the way back. */
export function ReportSection({ report }: { report: ReportView }) {
  return (
    <Section
      id="report"
      title={report.title}
      lead={report.sentence}
      actions={report.canUndo ? <UndoImport batch={report.batch} takesBack={report.takesBack} /> : null}
    >
      <div className={styles.flow}>
        {report.isAnalysed ? null : (
          <Notice kind="problem" title="The readings are in; their results are not up to date">
            Working out the results failed; the log of the server says why. They are made up for with the next
            import, or by <code>npx cleanby analyse</code>.
          </Notice>
        )}
        {report.units.length === 0 ? null : <UnitsChanged units={report.units} more={report.moreUnits} />}
        {report.status === null ? null : <p>{report.status}</p>}
        {report.replacedHref === null ? null : (
          <p>
            <Link href={report.replacedHref}>The values it replaced, old and new</Link>
          </p>
        )}
        {report.reasons.length === 0 ? (
          <p>No row was kept aside.</p>
        ) : (
          <>
            <div className={styles.head}>
              <h3>Kept aside</h3>
              <a className={styles.download} href={report.csvHref} download>
                Download these rows (CSV)
              </a>
            </div>
            <ul className={styles.list}>
              {report.reasons.map(({ reason, count, remedy }) => (
                <li key={reason}>
                  <strong>{count}</strong> × {reason}. {remedy}
                </li>
              ))}
            </ul>
            <SetAsideTable
              rows={report.rows.map((row) => ({ ...row, reason: setAsideInWords(row.reason).reason }))}
            />
            {report.rowsShown === '' ? null : <p className={styles.faint}>{report.rowsShown}</p>}
          </>
        )}
      </div>
    </Section>
  );
}

function UnitsChanged({ units, more }: { units: ChangedUnitView[]; more: number }) {
  return (
    <div>
      <Table
        caption="Units changed, with their clean-by answer now"
        isCaptionShown
        columns={[
          { key: 'tag', head: 'Unit' },
          { key: 'service', head: 'Service' },
          { key: 'state', head: 'State' },
          { key: 'cleanBy', head: 'Clean by' },
          { key: 'detail', head: 'How sure' },
        ]}
        rowHead="tag"
        rows={units.map(({ tag, service, href, state, cleanBy, detail }) => ({
          key: tag,
          cells: {
            tag: <Link href={href}>{tag}</Link>,
            service,
            state: state === null ? 'not analysed yet' : <StateMark state={state} />,
            cleanBy,
            detail,
          },
        }))}
      />
      {more === 0 ? null : (
        <p className={styles.faint}>
          And {more} more: see <Link href="/">the fleet</Link>.
        </p>
      )}
    </div>
  );
}
