'use client';

import { useId } from 'react';
import { priceHref } from '@/lib/report/prices/prices-address';
import { exampleOf } from '@/lib/report/setup/examples';
import { NumberField, QuantityField, SelectField, TextField } from './fields';
import styles from './setup.module.css';
import { useSetup } from './setup-context';

const EFFECTS = [
  { value: '', label: 'not stated' },
  { value: 'heating', label: 'heats: what it loses is bought as heat' },
  { value: 'cooling', label: 'cools: what it loses is made by a chiller or tower' },
  { value: 'recovery', label: 'recovers heat: what it loses is bought' },
];
const HELD = [
  { value: '', label: 'none: the duty falls as it fouls' },
  { value: 'hot', label: 'the hot outlet, by the flow of the cold stream' },
  { value: 'cold', label: 'the cold outlet, by the flow of the hot stream' },
];
const PER = [
  { value: 'kW.h', label: 'kWh' },
  { value: 'MW.h', label: 'MWh' },
  { value: 'GJ', label: 'GJ' },
  { value: '10*6.[Btu_IT]', label: 'MMBtu' },
];

/** What lost heat is made up with, and what that costs. */
export function EnergyFields() {
  return (
    <>
      <SelectField path="energy.effect" label="The unit" options={EFFECTS} isWide />
      <SelectField
        path="energy.heldOutlet"
        label="Outlet held by a control valve"
        options={HELD}
        hint="The duty is then fixed: what fouling costs is the extra flow and the margin that goes with it"
        isWide
      />
      <BoughtFields
        part="energy"
        supplyHint="As the site calls it, such as natural gas; its dated prices then count"
        efficiency={{ label: 'Efficiency, or COP', hint: 'Boiler 0.85, chiller 4: optional' }}
      />
    </>
  );
}

/** What extra pressure drop or flow costs. */
export function PumpingFields() {
  const { system } = useSetup();
  const head = `Optional, where a valve takes up the rest: ${exampleOf('pumpHead', system)}`;
  return (
    <>
      <p className={styles.wholeSaid}>
        A fouled unit can need more pumping: where its pressure drop is measured, or where a valve holds an
        outlet by more flow.
      </p>
      <BoughtFields
        part="pumping"
        supplyHint="What drives the pumps, as the site calls it, such as electricity"
        efficiency={{
          label: 'Efficiency, pump and motor',
          placeholder: '0.7 assumed',
          hint: 'Above 0, up to 1',
        }}
      />
      {SIDES.map(({ side, word }) => (
        <div key={side} className={styles.sensor}>
          <QuantityField
            path={`pumping.${side}Clean`}
            kind="pressure"
            label={`Clean pressure drop, ${word}`}
            hint={`Of the clean unit at the design flow: ${exampleOf('cleanPressureDrop', system)}`}
          />
          <QuantityField
            path={`pumping.${side}Head`}
            kind="pressure"
            label={`Pressure of the pump, ${word}`}
            hint={head}
          />
          <QuantityField
            path={`pumping.${side}MaximumFlow`}
            kind="flow"
            label={`Largest flow, ${word}`}
            hint={`With the control valve fully open: ${exampleOf('maximumFlow', system)}`}
          />
        </div>
      ))}
    </>
  );
}

const SIDES = [
  { side: 'hot', word: 'hot side' },
  { side: 'cold', word: 'cold side' },
];

type BoughtProps = {
  part: 'energy' | 'pumping';
  supplyHint: string;
  efficiency: { label: string; hint: string; placeholder?: string };
};

function BoughtFields({ part, supplyHint, efficiency }: BoughtProps) {
  const { draft } = useSetup();
  const isDated = draft[part].supply.trim() !== '';
  return (
    <>
      <SupplyField part={part} hint={supplyHint} />
      <NumberField
        path={`${part}.price.amount`}
        label="Price of that energy"
        suffix={draft.site.currency}
        hint={
          isDated
            ? 'Counts only before the supply’s first dated price'
            : 'Without a supply; example: 0.08 per kWh'
        }
      />
      <SelectField path={`${part}.price.per`} label="Price per" options={PER} />
      <NumberField path={`${part}.efficiency`} {...efficiency} />
      <NumberField
        path={`${part}.carbon.kg`}
        label="Carbon dioxide"
        suffix="kg"
        hint={
          isDated
            ? 'Counts only before the supply’s first dated factor'
            : 'Without a supply; example: 0.2 per kWh'
        }
      />
      <SelectField path={`${part}.carbon.per`} label="Carbon dioxide per" options={PER} />
    </>
  );
}

/** Names a supply of the site; one whose prices nobody has stated is told, with the way to state them. */
function SupplyField({ part, hint }: { part: 'energy' | 'pumping'; hint: string }) {
  const { draft, supplyNames } = useSetup();
  const listId = useId();
  const { name: site, isNew } = draft.site;
  const names = supplyNames[site] ?? [];
  const supply = draft[part].supply.trim();
  const isUnknown = !isNew && supply !== '' && !names.includes(supply);
  const told = isUnknown ? (
    <>
      No price of this name is stated at the site yet: <a href={priceHref({ site, supply })}>state one</a>
    </>
  ) : (
    hint
  );
  return (
    <>
      <TextField path={`${part}.supply`} label="Supply of the site" hint={told} list={listId} />
      <datalist id={listId}>
        {names.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
    </>
  );
}
