'use client';

import { Button } from '@/app/ui/button/button';
import { PROPERTY_TITLES } from '@/lib/report/setup/fluid-plot';
import { unitOptions } from '@/lib/report/setup/unit-choices';
import { emptyTableRow, type Side, TABLE_KINDS, type TableKind } from '@/lib/report/setup/unit-draft';
import { PasteRows } from './paste-rows';
import styles from './setup.module.css';
import { useField, useSetup } from './setup-context';

const LABELS: Record<TableKind, string> = { temperature: 'Temperature', ...PROPERTY_TITLES };
/** The form holds no fewer rows: one alone is a constant. */
const FEWEST_ROWS = 2;

/** Properties over temperature, row by row, or taken over from a spreadsheet. */
export function FluidTable({ side }: { side: Side }) {
  const { draft, set } = useSetup();
  const path = `${side}.properties`;
  const { table, units } = draft[side].properties;
  return (
    <>
      <PasteRows side={side} />
      <div className={styles.scroll}>
        <table className={styles.grid}>
          <caption className="unseen">Properties of the {side} fluid over temperature</caption>
          <thead>
            <tr>
              {TABLE_KINDS.map((kind) => (
                <th key={kind} scope="col">
                  {LABELS[kind]}
                  <select
                    value={units[kind]}
                    aria-label={`${LABELS[kind]}, unit of measure`}
                    onChange={(event) => set(`${path}.units.${kind}`, event.target.value)}
                  >
                    {unitOptions(kind, units[kind]).map(({ value, label }) => (
                      <option key={value} value={value}>
                        {label}
                      </option>
                    ))}
                  </select>
                </th>
              ))}
              <th>
                <span className="unseen">Remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {table.map((_, row) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: rows have no other identity, and hold no state
              <tr key={row}>
                {TABLE_KINDS.map((kind) => (
                  <td key={kind}>
                    <Cell path={`${path}.table[${row}].${kind}`} label={`${LABELS[kind]}, row ${row + 1}`} />
                  </td>
                ))}
                <td>
                  <Button
                    weight="quiet"
                    disabled={table.length <= FEWEST_ROWS}
                    onClick={() =>
                      set(
                        `${path}.table`,
                        table.filter((_kept, i) => i !== row),
                      )
                    }
                  >
                    Remove<span className="unseen"> row {row + 1}</span>
                  </Button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p>
        <Button weight="quiet" onClick={() => set(`${path}.table`, [...table, emptyTableRow()])}>
          Add a row
        </Button>
      </p>
    </>
  );
}

function Cell({ path, label }: { path: string; label: string }) {
  const { id, value, set, onBlur, error } = useField(path);
  return (
    <>
      <input
        id={id}
        aria-label={label}
        aria-invalid={error === null ? undefined : true}
        aria-describedby={error === null ? undefined : `${id}-error`}
        inputMode="decimal"
        autoComplete="off"
        value={value as string}
        onChange={(event) => set(event.target.value)}
        onBlur={onBlur}
      />
      {error === null ? null : (
        <p id={`${id}-error`} className={styles.cellError}>
          {error}
        </p>
      )}
    </>
  );
}
