'use client';

import { useMemo } from 'react';
import { Choice } from '@/app/ui/choice/choice';
import { exampleOf } from '@/lib/report/setup/examples';
import { fluidPlots, PROPERTY_TITLES } from '@/lib/report/setup/fluid-plot';
import { PROPERTY_KINDS, type PropertyKind, type Side } from '@/lib/report/setup/unit-draft';
import { QuantityField } from './fields';
import { FluidPlots } from './fluid-plots';
import { FluidTable } from './fluid-table';
import styles from './setup.module.css';
import { useSetup } from './setup-context';

const HINTS: Record<Exclude<PropertyKind, 'specificHeat'>, string> = {
  density: 'Optional; needed for volume flows',
  viscosity: 'Optional; for the films',
  conductivity: 'Optional; for the films',
};
const WAYS = [
  { value: 'constants', label: 'Constants' },
  { value: 'table', label: 'Table' },
  { value: 'polynomial', label: 'Polynomials' },
] as const;

/** Properties of a fluid that nobody else knows: constants, a table or polynomials, plotted as entered. */
export function CustomFluid({ side }: { side: Side }) {
  const { draft, set, system } = useSetup();
  const path = `${side}.properties`;
  const { properties } = draft[side];
  const plots = useMemo(() => fluidPlots(properties), [properties]);
  const hintOf = (kind: PropertyKind) =>
    kind === 'specificHeat' ? `Required: ${exampleOf(kind, system)}` : HINTS[kind];
  return (
    <div className={styles.whole}>
      <Choice
        label="Properties as"
        isLabelShown
        options={WAYS}
        value={properties.by}
        onChoose={(way) => set(`${path}.by`, way)}
      />
      {properties.by === 'constants' ? (
        <div className={styles.fields}>
          {PROPERTY_KINDS.map((kind) => (
            <QuantityField
              key={kind}
              path={`${path}.${kind}`}
              kind={kind}
              label={PROPERTY_TITLES[kind]}
              hint={hintOf(kind)}
            />
          ))}
        </div>
      ) : null}
      {properties.by === 'table' ? <FluidTable side={side} /> : null}
      {properties.by === 'polynomial' ? <Polynomials path={`${path}.polynomial`} hintOf={hintOf} /> : null}
      <FluidPlots plots={plots} label={`Properties of the ${side} fluid as entered`} />
      <PhaseChange side={side} />
    </div>
  );
}

type PolynomialsProps = { path: string; hintOf: (kind: PropertyKind) => string };

function Polynomials({ path, hintOf }: PolynomialsProps) {
  return (
    <>
      <p className={styles.wholeSaid}>
        Each property is c₀ + c₁·t + c₂·t² …, with t in °C, in the unit beside it. Write the coefficients one
        after another, c₀ first, with blanks between: 3.9 0.0012 −2e-6. Nothing is used beyond the range.
      </p>
      <div className={styles.fields}>
        <QuantityField path={`${path}.from`} kind="temperature" label="From" hint="Lowest temperature" />
        <QuantityField path={`${path}.to`} kind="temperature" label="To" hint="Highest temperature" />
        {PROPERTY_KINDS.map((kind) => (
          <QuantityField
            key={kind}
            path={`${path}.${kind}`}
            kind={kind}
            label={`${PROPERTY_TITLES[kind]}, coefficients`}
            hint={kind === 'specificHeat' ? 'Required' : hintOf(kind)}
            isList
          />
        ))}
      </div>
    </>
  );
}

const PHASE_WORDS: Record<Side, string> = { hot: 'condenses', cold: 'evaporates' };

function PhaseChange({ side }: { side: Side }) {
  const path = `${side}.properties`;
  return (
    <div className={styles.fields}>
      <QuantityField
        path={`${path}.latentHeat`}
        kind="specificEnthalpy"
        label="Latent heat"
        hint={`Only if the stream ${PHASE_WORDS[side]}; the properties are then the liquid’s`}
      />
      <QuantityField
        path={`${path}.saturationTemperature`}
        kind="temperature"
        label="Saturation temperature"
        hint={`With a latent heat, optional: else from the ${side === 'hot' ? 'inlet' : 'outlet'} temperature`}
      />
    </div>
  );
}
