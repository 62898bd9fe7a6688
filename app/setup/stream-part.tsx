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
import { UsedProperties } from './used-properties';

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

/** On the cold side water at saturation boils. */
const COLD_FLUIDS = FLUIDS.map((fluid) =>
  fluid.value === 'steam' ? { ...fluid, label: 'water, evaporating' } : fluid,
);

const TITLES: Record<Side, string> = { hot: 'Hot stream', cold: 'Cold stream' };

/** What flows on one side; the fields are those the fluid needs. */
export function StreamPart({ side }: { side: Side }) {
  const { draft, faults, system } = useSetup();
  const { fluid } = draft[side];
  const isSea = fluid === 'seawater';
  return (
    <Part title={TITLES[side]}>
      <SelectField path={`${side}.fluid`} label="Fluid" options={side === 'cold' ? COLD_FLUIDS : FLUIDS} />
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
              ? `Optional: else from the ${side === 'hot' ? 'inlet' : 'outlet'} temperature`
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
      {streamAsks(fluid, 'viscosities') ? <OilViscosities side={side} /> : null}
      <TextField path={`${side}.name`} label="Name of the fluid" hint="Optional: Whole milk" />
      {streamAsks(fluid, 'properties') ? <CustomFluid side={side} /> : null}
      <div className={styles.whole}>
        {fluid === 'custom' ? null : <UsedProperties side={side} />}
        <FieldError id={`${side}-stream`} error={faultExactlyAt(faults, `unit.${side}`)} />
      </div>
    </Part>
  );
}

const VISCOSITIES = ['First', 'Second'];

function OilViscosities({ side }: { side: Side }) {
  return (
    <>
      {VISCOSITIES.map((which, i) => (
        <OilViscosity key={which} path={`${side}.viscosities[${i}]`} which={which} isFirst={i === 0} />
      ))}
    </>
  );
}

function OilViscosity({ path, which, isFirst }: { path: string; which: string; isFirst: boolean }) {
  return (
    <>
      <QuantityField
        path={`${path}.value`}
        kind="oilViscosity"
        label={`${which} viscosity`}
        hint={
          isFirst
            ? 'Optional, kinematic or dynamic: without two the films are not corrected for temperature'
            : 'The lower one at the higher temperature'
        }
      />
      <QuantityField
        path={`${path}.temperature`}
        kind="temperature"
        label={`${which} viscosity, at`}
        hint={isFirst ? 'Example: 40 °C' : 'Example: 100 °C'}
      />
    </>
  );
}
