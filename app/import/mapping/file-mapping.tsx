'use client';

import { useId } from 'react';
import { Button } from '@/app/ui/button/button';
import { Notice } from '@/app/ui/notice/notice';
import type { ImportPreview } from '@/lib/contract/import-preview';
import type { TimeFormat } from '@/lib/contract/time-format';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { LONGEST_IN_ADDRESS, lengthInAddress } from '@/lib/report/import/mapping-address';
import styles from './mapping.module.css';
import { MappingSection } from './mapping-section';
import { SaveForm } from './save-form';
import { SavedOffer } from './saved-offer';
import { useMapping } from './use-mapping';
import type { UsedMapping } from './used-mapping';

type Props = {
  preview: ImportPreview;
  used: UsedMapping;
  tags: string[];
  system: UnitSystem;
  /** Zone chosen for times without offset; it is saved with the mapping. */
  timeZone: string;
  /** How times are said to be written; saved with the mapping too. */
  timeFormat: TimeFormat | '';
  /** Reads the file with a mapping; one that is saved goes by its name. */
  onApply: (used: UsedMapping) => void;
  onUseSaved: (name: string) => void;
};

/** The mapping of a chosen file: guessed, looked over, saved by name, and the file read with it. */
export function FileMapping({
  preview,
  used,
  tags,
  system,
  timeZone,
  timeFormat,
  onApply,
  onUseSaved,
}: Props) {
  const task = preview.mapping!;
  const state = useMapping(task, used.mapping);
  const titleId = useId();
  const mapping = () => ({
    ...state.result(),
    ...(timeZone === '' ? {} : { timeZone }),
    ...(timeFormat === '' ? {} : { timeFormat }),
  });
  const isShort = lengthInAddress(mapping()) <= LONGEST_IN_ADDRESS;
  const stem = preview.file.replace(/\.[a-z0-9]{1,5}$/i, '').slice(0, 80);
  return (
    <section className={styles.mapping} aria-labelledby={titleId}>
      <h4 id={titleId}>Which unit and quantity does each name stand for?</h4>
      {used.mapping === null ? <SavedOffer task={task} onUse={onUseSaved} /> : null}
      <TimeColumn preview={preview} value={state.timeColumn} onPick={state.setTimeColumn} />
      <MappingSection task={task} state={state} tags={tags} system={system} faults={preview.faults} />
      <SaveForm
        loaded={used.saved}
        proposedName={stem}
        submitLabel="Save and read the file"
        mapping={mapping}
        onSaved={(saved) => onApply({ mapping: saved.mapping, saved })}
      >
        {isShort ? (
          <Button onClick={() => onApply({ mapping: mapping(), saved: null })}>Read without saving</Button>
        ) : null}
      </SaveForm>
      <p className={styles.faint}>
        Nothing is taken as guessed until you say yes. Columns left open are skipped. A saved mapping is
        offered again for the next file with these names, and <code>cleanby watch</code> reads a folder with
        it.
      </p>
    </section>
  );
}

type TimeProps = { preview: ImportPreview; value: string | null; onPick: (name: string | null) => void };

/** Asked only where no column is named so that its times are found. */
function TimeColumn({ preview, value, onPick }: TimeProps) {
  const { columns, kind } = preview.format;
  const isNamed =
    columns.some(({ use }) => use === 'time') && preview.mapping?.timeColumn == null && value === null;
  if (isNamed || kind === 'long') return null;
  return (
    <Notice title={value === null ? 'No column of times was found' : `Times are in “${value}”`}>
      <label className={styles.time}>
        Column of times
        <select value={value ?? ''} onChange={(event) => onPick(event.target.value || null)}>
          <option value="">not chosen</option>
          {columns.map(({ name }) => (
            <option key={name}>{name}</option>
          ))}
        </select>
      </label>
    </Notice>
  );
}
