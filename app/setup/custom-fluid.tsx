'use client';

import { Button } from '@/app/ui/button/button';
import { Choice } from '@/app/ui/choice/choice';
import { exampleOf } from '@/lib/report/setup/examples';
import { unitOptions } from '@/lib/report/setup/unit-choices';
import {
  emptyTableRow,
  PROPERTY_KINDS,
  type Side,
  TABLE_KINDS,
  type TableKind,
} from '@/lib/report/setup/unit-draft';
import { QuantityField } from './fields';
import styles from './setup.module.css';
import { useField, useSetup } from './setup-context';

const LABELS: Record<TableKind, string> = {
  temperature: 'Temperature',
  specificHeat: 'Specific heat',
  density: 'Density',
  viscosity: 'Viscosity',
  conductivity: 'Conductivity',
};
const HINTS = {
  density: 'Optional; needed for volume flows',
  viscosity: 'Optional; for the films',
  conductivity: 'Optional; for the films',
};
const WAYS = [
  { value: 'constants', label: 'Constants' },
  { value: 'table', label: 'Table over temperature' },
] as const;

/** Properties of a fluid that nobody else knows: constants, or a small table. */
export function CustomFluid({ side }: { side: Side }) {
  const { draft, set, system } = useSetup();
  const path = `${side}.properties`;
  const { by } = draft[side].properties;
  return (
    <div className={styles.whole}>
      <Choice
        label="Properties as"
        isLabelShown
        options={WAYS}
        value={by}
        onChoose={(way) => set(`${path}.by`, way)}
      />
      {by === 'constants' ? (
        <div className={styles.fields}>
          {PROPERTY_KINDS.map((kind) => (
            <QuantityField
              key={kind}
              path={`${path}.${kind}`}
              kind={kind}
              label={LABELS[kind]}
              hint={kind === 'specificHeat' ? `Required: ${exampleOf(kind, system)}` : HINTS[kind]}
            />
          ))}
        </div>
      ) : (
        <PropertyTable path={path} side={side} />
      )}
    </div>
  );
}

function PropertyTable({ path, side }: { path: string; side: Side }) {
  const { draft, set } = useSetup();
  const { table, units } = draft[side].properties;
  return (
    <>
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
                    disabled={table.length <= 2}
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
