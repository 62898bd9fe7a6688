'use client';

import { useId, useState, useTransition } from 'react';
import { NOT_REACHED } from '@/app/ui/api/problem';
import { Button } from '@/app/ui/button/button';
import { countOf } from '@/lib/report/format/words';
import { emptyTableRow, type Side } from '@/lib/report/setup/unit-draft';
import { readRowsAction } from './read-rows-action';
import styles from './setup.module.css';
import { useSetup } from './setup-context';

type Said = { faults: string[]; taken: string | null };

const EXAMPLE = 'T [°C]\tcp [kJ/(kg·K)]\tdensity [kg/m³]\n20\t3.885\t1023.1';

/** Takes a table over from a spreadsheet or a CSV file: nothing of it while a cell cannot be read. */
export function PasteRows({ side }: { side: Side }) {
  const { draft, set } = useSetup();
  const id = useId();
  const [text, setText] = useState('');
  const [said, setSaid] = useState<Said>({ faults: [], taken: null });
  const [isReading, start] = useTransition();
  const path = `${side}.properties`;

  const take = () =>
    start(async () => {
      const read = await readRowsAction(text).catch(() => null);
      if (read === null) return setSaid({ faults: [NOT_REACHED.detail], taken: null });
      const { rows, units, skipped, faults } = read;
      if (faults.length > 0) return setSaid({ faults, taken: null });
      const one = rows.length === 1 ? [emptyTableRow()] : [];
      set(path, {
        ...draft[side].properties,
        units: { ...draft[side].properties.units, ...units },
        table: [...rows, ...one],
      });
      setText('');
      const left = skipped.length === 0 ? '' : ` Left out: ${skipped.join(', ')}.`;
      setSaid({ faults: [], taken: `${countOf(rows.length, 'row')} taken over.${left}` });
    });

  return (
    <details className={styles.paste}>
      <summary>Paste rows from a spreadsheet or CSV</summary>
      <label htmlFor={id}>
        Temperature, specific heat and, where known, density, viscosity, conductivity
      </label>
      <textarea
        id={id}
        rows={6}
        value={text}
        placeholder={EXAMPLE}
        spellCheck={false}
        aria-describedby={`${id}-hint`}
        aria-invalid={said.faults.length > 0 || undefined}
        onChange={(event) => setText(event.target.value)}
      />
      <p id={`${id}-hint`} className={styles.wholeSaid}>
        Columns between tabs, semicolons or commas; a header with names and units may stand on top. Without
        units, those of the table below hold. The rows replace the table.
      </p>
      <div>
        <Button onClick={take} disabled={isReading || text.trim() === ''}>
          {isReading ? 'Reading …' : 'Take the rows over'}
        </Button>
      </div>
      <div role="status">
        {said.taken === null ? null : <p className={styles.wholeSaid}>{said.taken}</p>}
        {said.faults.length === 0 ? null : (
          <ul className={styles.pasteFaults}>
            {said.faults.map((fault) => (
              <li key={fault}>{fault}</li>
            ))}
          </ul>
        )}
      </div>
    </details>
  );
}
