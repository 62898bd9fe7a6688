import { ButtonLink } from '@/app/ui/button/button';
import { Notice } from '@/app/ui/notice/notice';
import { Section } from '@/app/ui/section/section';
import { Table } from '@/app/ui/table/table';
import { formatInstant } from '@/lib/report/format/time';
import type { Datasheet, DatasheetGroup } from '@/lib/report/unit/datasheet';
import styles from './unit.module.css';

type Props = { datasheet: Datasheet; editHref: string; timeZone: string };

/** The installed unit: as the datasheet gives it, in both unit systems, with everything assumed marked as such. */
export function DatasheetSection({ datasheet, editHref, timeZone }: Props) {
  return (
    <Section
      id="datasheet"
      title="Datasheet"
      lead={
        <p>{`Version ${datasheet.version}, saved ${formatInstant(datasheet.versionSince, timeZone)}.`}</p>
      }
      actions={
        <span className="screen-only">
          <ButtonLink href={datasheet.referenceHref}>Clean reference</ButtonLink>{' '}
          <ButtonLink href={editHref}>Edit</ButtonLink>
        </span>
      }
    >
      <div className={styles.notices}>
        {datasheet.advice.map((advice) => (
          <Notice key={advice}>{advice}</Notice>
        ))}
      </div>
      <div className={styles.datasheet}>
        {datasheet.groups.map((group) => (
          <Group key={group.title} group={group} />
        ))}
      </div>
      {datasheet.versions.length < 2 ? null : <Versions versions={datasheet.versions} />}
    </Section>
  );
}

function Versions({ versions }: { versions: Datasheet['versions'] }) {
  return (
    <div className={styles.versions}>
      <h3>Versions of this datasheet</h3>
      <Table
        caption="Versions of this datasheet, newest first"
        columns={[
          { key: 'number', head: 'Version', isNumber: true },
          { key: 'holds', head: 'Valid' },
          { key: 'saved', head: 'Saved' },
          { key: 'state', head: 'Used for' },
        ]}
        rowHead="number"
        rows={versions.map(({ isUsed, ...row }) => ({
          key: `${row.number}`,
          cells: { ...row, state: isUsed ? 'its part of the record' : 'nothing: replaced' },
        }))}
      />
    </div>
  );
}

function Group({ group }: { group: DatasheetGroup }) {
  return (
    <div>
      <h3>{group.title}</h3>
      <Table
        caption={group.title}
        columns={[
          { key: 'label', head: <span className="unseen">Item</span> },
          { key: 'given', head: 'As given', isNumber: true },
          { key: 'si', head: 'SI', isNumber: true },
          { key: 'us', head: 'US', isNumber: true },
          { key: 'note', head: <span className="unseen">Note</span> },
        ]}
        rowHead="label"
        rows={group.rows.map((row) => ({
          key: row.label,
          cells: { ...row, note: <span className={styles.note}>{row.note}</span> },
        }))}
      />
    </div>
  );
}
