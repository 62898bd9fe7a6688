'use client';

import { NoteField, NumberField, QuantityField, SelectField, TextField } from './fields';
import styles from './setup.module.css';
import { useSetup } from './setup-context';

const WHEN = [
  { value: '', label: 'not stated: any time' },
  { value: 'any', label: 'while the plant runs, or in an outage' },
  { value: 'outage', label: 'in outages only' },
];

/** What a cleaning takes, when it can be, and what whoever does it must know. */
export function CleaningFields() {
  const { draft } = useSetup();
  const { currency } = draft.site;
  return (
    <>
      <TextField path="cleaning.method" label="Usual method" hint="Example: high-pressure water" />
      <NumberField path="cleaning.cost" label="Cost" suffix={currency} hint="Example: 4000" />
      <QuantityField
        path="cleaning.duration"
        kind="duration"
        label="Out of service for"
        hint="Example: 12 h"
      />
      <NumberField path="cleaning.crewHours" label="Crew hours" hint="Example: 24" />
      <SelectField
        path="cleaning.when"
        faultPath="cleaning.inOutageOnly"
        label="Can be cleaned"
        options={WHEN}
        hint="In outages only where it cannot be taken out while its plant runs"
      />
      <NumberField
        path="cleaning.downtimePerHour"
        label="Lost for each hour out of service"
        suffix={currency}
        hint="Outside an outage; where empty, the price of its whole duty"
      />
      <NoteField
        path="cleaning.isolation"
        label="Isolation"
        hint="How this unit is isolated, drained, vented and checked. Printed with the work list."
      />
      <NoteField
        path="cleaning.compatibility"
        label="What materials and gaskets stand"
        hint="Chemicals, temperatures and tools that suit them, and those that do not. Printed with the work list."
      />
      <p className={styles.wholeSaid}>
        Notes do not replace the permit to work, the maker’s instructions or local codes.
      </p>
    </>
  );
}
