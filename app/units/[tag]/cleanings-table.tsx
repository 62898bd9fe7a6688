import { AddFiles } from '@/app/plan/work/add-files';
import { FileList } from '@/app/plan/work/file-list';
import { Table } from '@/app/ui/table/table';
import { Value } from '@/app/ui/value/value';
import type { Figure } from '@/lib/report/format/figure';
import type { CleaningRow, CleaningTable } from '@/lib/report/unit/cleaning-rows';
import type { CleaningForm } from '@/lib/report/unit-view';
import { CleaningHistory } from './cleaning-history';
import { CorrectCleaningForm } from './correct-cleaning-form';
import styles from './cycles.module.css';
import { WithdrawForm } from './withdraw-form';

type Props = { cleanings: CleaningTable; form: CleaningForm };

/** Each recorded cleaning and what it did: fouling before and after, share recovered, duty, energy and money since. */
export function CleaningsTable({ cleanings, form }: Props) {
  const { rows, foulingUnit, dutyUnit, energyUnit, working, changed } = cleanings;
  if (rows.length === 0) return changed.length === 0 ? null : <CleaningHistory rows={changed} />;
  return (
    <div className={styles.cleanings}>
      <h3>What each cleaning did</h3>
      <Table
        caption="Recorded cleanings and what each did, the newest first"
        columns={[
          { key: 'cleaned', head: 'Cleaned' },
          { key: 'before', head: 'Fouling before', unit: foulingUnit, isNumber: true },
          { key: 'after', head: 'After', unit: foulingUnit, isNumber: true },
          { key: 'recovered', head: 'Recovered' },
          { key: 'duty', head: 'Duty won back', unit: dutyUnit, isNumber: true },
          { key: 'energy', head: 'Energy so far, at least', unit: energyUnit, isNumber: true },
          { key: 'worth', head: 'Worth so far, at least', isNumber: true },
          { key: 'back', head: 'Back at level before' },
          { key: 'actions', head: <span className="unseen">Correct or withdraw</span> },
        ]}
        rowHead="cleaned"
        rows={rows.map((row) => ({ key: row.key, cells: cellsOf(row, form) }))}
      />
      <p className={styles.note}>{working}</p>
      {changed.length === 0 ? null : <CleaningHistory rows={changed} />}
    </div>
  );
}

function cellsOf(row: CleaningRow, form: CleaningForm) {
  const bare = (figure: Figure, when?: string) => (
    <Value figure={{ ...figure, unit: '' }} missing="–" when={when} />
  );
  return {
    cleaned: (
      <>
        {row.cleaned}
        <span className={styles.small}>{row.how}</span>
        <FileList files={row.files} />
      </>
    ),
    before: bare(row.before),
    after: bare(row.after),
    recovered: (
      <>
        {row.recovered}
        {row.isPartial ? <strong className={styles.small}>partial cleaning</strong> : null}
      </>
    ),
    duty: bare(row.duty),
    energy: bare(row.energy, row.days),
    worth: row.worth,
    back: row.back,
    actions: (
      <span className={`${styles.actions} screen-only`}>
        <AddFiles cleaning={row.entries.id} what={`cleaning of ${row.cleaned}`} />
        <CorrectCleaningForm form={form} entries={row.entries} what={`cleaning of ${row.cleaned}`} />
        <WithdrawForm
          tag={form.tag}
          kind="cleaning"
          id={row.entries.id}
          revision={row.entries.revision}
          what={`cleaning of ${row.cleaned}`}
        />
      </span>
    ),
  };
}
