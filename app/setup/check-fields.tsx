'use client';

import { CHECK_FIELDS, type CheckField } from '@/lib/report/setup/check-fields';
import { checkAssumed } from '@/lib/report/setup/checks-draft';
import { NumberField, QuantityField } from './fields';
import styles from './setup.module.css';
import { useSetup } from './setup-context';

/** Thresholds by which a reading counts or is left out. */
export function CheckFields() {
  return (
    <>
      <p className={styles.wholeSaid}>
        Thresholds by which a reading of this unit counts or is left out. Empty fields take the usual value,
        as shown in them, which suits hourly readings. Changing one judges all readings of the unit anew.
      </p>
      {CHECK_FIELDS.map((field) => (
        <OneCheck key={field.name} field={field} />
      ))}
    </>
  );
}

function OneCheck({ field }: { field: CheckField }) {
  const { draft } = useSetup();
  const common = {
    path: `checks.${field.name}`,
    label: field.label,
    hint: field.hint,
    placeholder: checkAssumed(field.name, draft.checks),
  };
  if (field.by === 'temperature') return <QuantityField {...common} kind="temperature" />;
  return <NumberField {...common} suffix={field.suffix} />;
}
