'use client';

import { FieldError } from '@/app/ui/form/field';
import { exampleOf } from '@/lib/report/setup/examples';
import { faultExactlyAt } from '@/lib/report/setup/fault-places';
import { streamAsks, streamNeeds } from '@/lib/report/setup/stream-document';
import type { FluidName, Side } from '@/lib/report/setup/unit-draft';
import { CustomFluid } from './custom-fluid';
import { NumberField, QuantityField, SelectField, TextField } from './fields';
import { Part } from './part';
import styles from './setup.module.css';
import { useSetup } from './setup-context';

const FLUIDS: { value: FluidName; label: string }[] = [
  { value: 'water', label: 'water' },
  { value: 'steam', label: 'steam, condensing' },
  { value: 'seawater', label: 'sea water' },
  { value: 'ethylene-glycol', label: 'ethylene glycol in water' },
  { value: 'propylene-glycol', label: 'propylene glycol in water' },
  { value: 'oil', label: 'oil' },
  { value: 'air', label: 'air' },
  { value: 'custom', label: 'own fluid, by its properties' },
];

const TITLES: Record<Side, string> = { hot: 'Hot stream', cold: 'Cold stream' };

/** What flows on one side; the fields are those the fluid needs. */
export function StreamPart({ side }: { side: Side }) {
  const { draft, faults, system } = useSetup();
  const { fluid } = draft[side];
  const isSea = fluid === 'seawater';
  return (
    <Part title={TITLES[side]}>
      <SelectField
        path={`${side}.fluid`}
        label="Fluid"
        options={side === 'cold' ? FLUIDS.filter(({ value }) => value !== 'steam') : FLUIDS}
      />
      {streamAsks(fluid, 'concentration') ? (
        <NumberField
          path={`${side}.concentration`}
          label={isSea ? 'Salinity' : 'Glycol'}
          suffix="% by mass"
          hint={streamNeeds(fluid, 'concentration') ? 'Example: 30' : 'Optional: 3.5 assumed'}
        />
      ) : null}
      {streamAsks(fluid, 'pressure') ? (
        <QuantityField
          path={`${side}.pressure`}
          kind="pressure"
          label="Pressure, absolute"
          hint={
            fluid === 'steam'
              ? 'Optional: else from the inlet temperature'
              : `Optional; needed above ${exampleOf('boiling', system)}`
          }
        />
      ) : null}
      {streamAsks(fluid, 'density') ? (
        <QuantityField
          path={`${side}.density`}
          kind="density"
          label="Density at 15 °C"
          hint={`Example: ${exampleOf('density', system)}`}
        />
      ) : null}
      {streamAsks(fluid, 'characterisationFactor') ? (
        <NumberField
          path={`${side}.characterisationFactor`}
          label="Characterisation factor"
          hint="Optional, 10 to 13: 11.8 assumed"
        />
      ) : null}
      <TextField path={`${side}.name`} label="Name of the fluid" hint="Optional: Whole milk" />
      {streamAsks(fluid, 'properties') ? <CustomFluid side={side} /> : null}
      <div className={styles.whole}>
        <FieldError id={`${side}-stream`} error={faultExactlyAt(faults, `unit.${side}`)} />
      </div>
    </Part>
  );
}
