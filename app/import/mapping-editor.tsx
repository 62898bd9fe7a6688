'use client';

import { useId, useState } from 'react';
import { Button } from '@/app/ui/button/button';
import type { ImportPreview } from '@/lib/contract/import-preview';
import type { Mapping } from '@/lib/contract/mapping';
import {
  type MappingChoice,
  mappingChoices,
  mappingFrom,
  QUANTITIES,
  unitsOfSensor,
} from '@/lib/report/import/mapping-choices';
import styles from './import.module.css';

type Props = {
  preview: ImportPreview;
  mapping: Mapping | null;
  tags: string[];
  onApply: (mapping: Mapping) => void;
};

/** Which unit, quantity and unit of measure each column or sensor name stands for; shown where the file needs it. */
export function MappingEditor({ preview, mapping, tags, onApply }: Props) {
  const [choices, setChoices] = useState(() => mappingChoices(preview, mapping, tags));
  const tagsId = useId();
  if (choices.length === 0) return null;
  const change = (place: number, changes: Partial<MappingChoice>) =>
    setChoices(choices.map((choice, i) => (i === place ? { ...choice, ...changes } : choice)));
  return (
    <form
      className={styles.mapping}
      onSubmit={(event) => {
        event.preventDefault();
        onApply(mappingFrom(choices, mapping));
      }}
    >
      <h4>Which unit and quantity does each name stand for?</h4>
      <p className={styles.faint}>
        Leave the tag empty to skip one. Kept in this browser for the next file with the same header.
      </p>
      <datalist id={tagsId}>
        {tags.map((tag) => (
          <option key={tag} value={tag} />
        ))}
      </datalist>
      <div className={styles.mappingRows}>
        {choices.map((choice, place) => (
          <MappingRow
            key={choice.name}
            choice={choice}
            tagsId={tagsId}
            onChange={(changes) => change(place, changes)}
          />
        ))}
      </div>
      <p className={styles.actions}>
        <Button type="submit">Read the file with this mapping</Button>
      </p>
    </form>
  );
}

type RowProps = {
  choice: MappingChoice;
  tagsId: string;
  onChange: (changes: Partial<MappingChoice>) => void;
};

function MappingRow({ choice, tagsId, onChange }: RowProps) {
  const unitsId = useId();
  const { name, tag, sensor, unit } = choice;
  return (
    // biome-ignore lint/a11y/useSemanticElements: the legend of a fieldset cannot stand in a grid
    <div role="group" aria-label={name} className={styles.mappingRow}>
      <strong>{name}</strong>
      <label>
        Tag
        <input list={tagsId} value={tag} onChange={(event) => onChange({ tag: event.target.value })} />
      </label>
      <label>
        Quantity
        <select
          value={sensor}
          onChange={(event) => onChange({ sensor: event.target.value as MappingChoice['sensor'] })}
        >
          <option value="">choose</option>
          {QUANTITIES.map((known) => (
            <option key={known.sensor} value={known.sensor}>
              {known.words}
            </option>
          ))}
        </select>
      </label>
      <label>
        Unit of measure
        <input list={unitsId} value={unit} onChange={(event) => onChange({ unit: event.target.value })} />
        <datalist id={unitsId}>
          {(sensor === '' ? [] : unitsOfSensor(sensor)).map((known) => (
            <option key={known} value={known} />
          ))}
        </datalist>
      </label>
    </div>
  );
}
