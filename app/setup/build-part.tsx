'use client';

import { FieldError } from '@/app/ui/form/field';
import { exampleOf } from '@/lib/report/setup/examples';
import { faultExactlyAt } from '@/lib/report/setup/fault-places';
import { nozzlesInWords } from '@/lib/report/setup/figures-view';
import { asksTubeSide } from '@/lib/report/setup/following-choices';
import { NumberField, QuantityField, SelectField } from './fields';
import { Part } from './part';
import styles from './setup.module.css';
import { useSetup } from './setup-context';

const CONSTRUCTIONS = [
  { value: '', label: 'not stated' },
  { value: 'plate', label: 'plate' },
  { value: 'shell-and-tube', label: 'shell and tube' },
  { value: 'double-pipe', label: 'double pipe' },
  { value: 'air-cooled', label: 'air cooled' },
  { value: 'other', label: 'other' },
];
const ARRANGEMENTS = [
  { value: 'counter-current', label: 'counter-current' },
  { value: 'co-current', label: 'co-current' },
  { value: 'shell-and-tube', label: 'shell and tube passes' },
  { value: 'crossflow', label: 'crossflow' },
  { value: 'plate', label: 'plate passes' },
];
const MIXED = [
  { value: 'none', label: 'neither stream' },
  { value: 'hot', label: 'the hot stream' },
  { value: 'cold', label: 'the cold stream' },
  { value: 'both', label: 'both streams' },
];
const SIDES = [
  { value: '', label: 'not stated (cold assumed)' },
  { value: 'cold', label: 'cold stream' },
  { value: 'hot', label: 'hot stream' },
];
const ENDS = [
  { value: '', label: 'not stated' },
  { value: 'top', label: 'top' },
  { value: 'bottom', label: 'bottom' },
];
const AREA_BY = [
  { value: 'area', label: 'heat-transfer area' },
  { value: 'plates', label: 'plates' },
];

/** How the unit is built, how the streams pass each other, and its area; fields appear as they are needed. */
export function BuildPart() {
  const { draft, faults, figures, system } = useSetup();
  const { kind } = draft.arrangement;
  return (
    <Part title="Construction and arrangement">
      <SelectField path="construction" label="Construction" options={CONSTRUCTIONS} />
      <SelectField path="arrangement.kind" label="Arrangement" options={ARRANGEMENTS} />
      {kind === 'shell-and-tube' ? (
        <>
          <NumberField path="arrangement.shellPasses" label="Shell passes" hint="Shells in series: 1" />
          <NumberField path="arrangement.tubePasses" label="Tube passes" hint="Of all shells together: 2" />
        </>
      ) : null}
      {kind === 'crossflow' ? (
        <SelectField path="arrangement.mixed" label="Mixed across the flow" options={MIXED} />
      ) : null}
      {kind === 'plate' ? (
        <>
          <NumberField
            path="arrangement.hotPasses"
            label="Hot passes"
            hint="1-1, 2-1, 2-2 and 3-1 are known"
          />
          <NumberField path="arrangement.coldPasses" label="Cold passes" />
        </>
      ) : null}
      {asksTubeSide(draft) ? <SelectField path="tubeSide" label="In the tubes" options={SIDES} /> : null}
      <div className={styles.whole}>
        <FieldError id="arrangement" error={faultExactlyAt(faults, 'unit.arrangement')} />
      </div>
      <SelectField path="nozzles.hotIn" label="Hot stream enters at the" options={ENDS} hint="Optional" />
      <SelectField path="nozzles.coldIn" label="Cold stream enters at the" options={ENDS} hint="Optional" />
      <div className={styles.whole}>
        {nozzlesInWords(figures).map((sentence) => (
          <p key={sentence} className={styles.said}>
            {sentence}
          </p>
        ))}
      </div>
      <SelectField path="areaBy" label="Area stated by" options={AREA_BY} />
      {draft.areaBy === 'area' ? (
        <QuantityField
          path="area"
          kind="area"
          label="Heat-transfer area"
          hint={`Outside surface of the tubes: ${exampleOf('area', system)}`}
        />
      ) : (
        <>
          <NumberField path="plates.count" label="Number of plates" hint="End plates included: 101" />
          <QuantityField
            path="plates.areaEach"
            kind="area"
            label="Area of one plate"
            hint={`Example: ${exampleOf('plateArea', system)}`}
          />
          <QuantityField
            path="plates.channelGap"
            kind="length"
            label="Gap between plates"
            hint={`Optional, for velocities; mean depth of a channel: ${exampleOf('channelGap', system)}`}
          />
          <QuantityField
            path="plates.channelWidth"
            kind="length"
            label="Width of a channel"
            hint={`Optional; between its gaskets: ${exampleOf('channelWidth', system)}`}
          />
        </>
      )}
    </Part>
  );
}
