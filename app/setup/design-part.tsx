'use client';

import { FieldError } from '@/app/ui/form/field';
import { exampleOf } from '@/lib/report/setup/examples';
import { faultExactlyAt } from '@/lib/report/setup/fault-places';
import { QuantityField } from './fields';
import { Part } from './part';
import styles from './setup.module.css';
import { useSetup } from './setup-context';

/** The clean duty point: what fouling is measured against. */
export function DesignPart() {
  const { faults, system } = useSetup();
  return (
    <Part
      title="Clean duty point"
      lead="Temperatures and flows of the datasheet, each in its own unit of measure. The clean U follows from them unless it is stated."
    >
      <QuantityField
        path="design.hotIn"
        kind="temperature"
        label="Hot inlet"
        hint={`Example: ${exampleOf('hotIn', system)}`}
      />
      <QuantityField
        path="design.hotOut"
        kind="temperature"
        label="Hot outlet"
        hint={`Example: ${exampleOf('hotOut', system)}`}
      />
      <QuantityField
        path="design.hotFlow"
        kind="flow"
        label="Hot flow"
        hint={`Mass or volume: ${exampleOf('hotFlow', system)}`}
      />
      <QuantityField
        path="design.coldIn"
        kind="temperature"
        label="Cold inlet"
        hint={`Example: ${exampleOf('coldIn', system)}`}
      />
      <QuantityField
        path="design.coldOut"
        kind="temperature"
        label="Cold outlet"
        hint={`Example: ${exampleOf('coldOut', system)}`}
      />
      <QuantityField
        path="design.coldFlow"
        kind="flow"
        label="Cold flow"
        hint={`Mass or volume: ${exampleOf('coldFlow', system)}`}
      />
      <QuantityField
        path="design.cleanU"
        kind="conductance"
        label="Clean U"
        hint="Optional: else it follows"
      />
      <div className={styles.whole}>
        <FieldError id="design-point" error={faultExactlyAt(faults, 'unit.design')} />
      </div>
    </Part>
  );
}
