import { ButtonLink } from '@/app/ui/button/button';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Table } from '@/app/ui/table/table';
import { PrintButton } from '@/app/units/[tag]/spot-check/print-button';
import { countOf } from '@/lib/report/format/words';
import type { WorkSheets } from '@/lib/report/work-list/work-sheets';
import { Cautions } from '../cautions';
import { Sheet } from './sheet';
import styles from './sheets.module.css';

/** The work list on paper: all of it on the first page, then a sheet for each cleaning. */
export function SheetsScreen({ view }: { view: WorkSheets }) {
  const { sheets, plans, today } = view;
  return (
    <>
      <PageHeader
        title="Cleanings to be done"
        context={`${countOf(sheets.length, 'cleaning')} · as of ${today}`}
        actions={
          <span className="screen-only">
            <PrintButton /> <ButtonLink href="/plan/work">Back to the list</ButtonLink>
          </span>
        }
      >
        {plans.length === 0 ? <p>No plan has been accepted yet.</p> : null}
        {plans.map((plan) => (
          <p key={plan}>{plan}</p>
        ))}
      </PageHeader>
      <Cautions />
      {sheets.length === 0 ? <p>Nothing is open.</p> : <Summary view={view} />}
      {sheets.map((sheet) => (
        <Sheet key={sheet.row.id} sheet={sheet} />
      ))}
    </>
  );
}

function Summary({ view }: { view: WorkSheets }) {
  return (
    <div className={styles.summary}>
      <Table
        caption="Cleanings to be done, the earliest first"
        columns={[
          { key: 'unit', head: 'Unit' },
          { key: 'when', head: 'Out of service' },
          { key: 'place', head: 'Where' },
          { key: 'method', head: 'Method' },
          { key: 'crew', head: 'Crew', isNumber: true },
        ]}
        rowHead="unit"
        rows={view.sheets.map(({ row }) => ({
          key: `${row.id}`,
          cells: {
            unit: row.tag,
            when: `${row.when} (${row.timeZone})`,
            place: row.place,
            method: row.method,
            crew: row.crew,
          },
        }))}
      />
    </div>
  );
}
