'use client';

import { SelectField } from './fields';
import { Part } from './part';
import { useSetup } from './setup-context';
import { TimeField } from './time-field';

const KINDS = [
  { value: 'correction', label: 'it corrects the datasheet' },
  { value: 'change', label: 'the equipment was changed' },
];

/** Whether a new version corrects the one before, or says how the equipment stands since a later time. */
export function ValidityPart() {
  const { draft } = useSetup();
  const { kind, kept } = draft.validity;
  return (
    <Part
      title="What this change is"
      lead="A correction changes the results of every reading the datasheet holds for. Plates added, tubes plugged: from the day of the change on; earlier readings keep the datasheet before."
    >
      <SelectField
        path="validity.kind"
        label="This version is saved because"
        options={KINDS}
        hint={
          kept === '' || kind === 'change'
            ? undefined
            : 'It corrects what holds since the last change of the equipment.'
        }
      />
      {kind === 'change' ? (
        <TimeField
          path="validity.at"
          faultPath="validFrom"
          label="Changed on"
          hint={`Local time, ${draft.site.timeZone}: when it went back into service`}
        />
      ) : null}
    </Part>
  );
}
