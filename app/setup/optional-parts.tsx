'use client';

import { SENSOR_WORDS } from '@/lib/report/format/words';
import { faultAt } from '@/lib/report/setup/fault-places';
import { assumedFilms } from '@/lib/report/setup/figures-view';
import { EXPONENT_ASSUMED, SENSOR_FIELDS, saidOf } from '@/lib/report/setup/optional-words';
import { CheckFields } from './check-fields';
import { CleanTestFields } from './clean-test-fields';
import { CleaningFields } from './cleaning-fields';
import { EnergyFields, PumpingFields } from './energy-fields';
import { NumberField, QuantityField, SelectField } from './fields';
import { OptionalPart } from './part';
import styles from './setup.module.css';
import { useSetup } from './setup-context';

const CLEAN = [
  { value: 'datasheet', label: 'as on the datasheet' },
  { value: 'test', label: 'from one test of the clean unit' },
  { value: 'learned', label: 'learned from the days after a cleaning' },
];
const METER_AT = [
  { value: '', label: 'not stated (inlet assumed)' },
  { value: 'inlet', label: 'inlet' },
  { value: 'outlet', label: 'outlet' },
];
/** From films to cleaning: defaults serve until somebody knows better. */
export function OptionalParts() {
  const { draft, faults, isAllShown } = useSetup();
  const isOpen = (path: string) => isAllShown && faultAt(faults, `unit.${path}`) !== null;
  const said = saidOf(draft);
  return (
    <>
      <OptionalPart title="Clean films" said={said.films} isOpen={isOpen('films')}>
        <FilmFields />
      </OptionalPart>
      <OptionalPart title="Pressure drop" said={said.pressureDrop} isOpen={isOpen('pressureDrop')}>
        <PressureDropFields />
      </OptionalPart>
      <OptionalPart title="Sensors" said={said.sensors} isOpen={isOpen('sensors')}>
        <SensorFields />
      </OptionalPart>
      <OptionalPart title="Which readings count" said={said.checks} isOpen={isOpen('checks')}>
        <CheckFields />
      </OptionalPart>
      <OptionalPart title="Energy" said={said.energy} isOpen={isOpen('energy')}>
        <EnergyFields />
      </OptionalPart>
      <OptionalPart title="Pumping" said={said.pumping} isOpen={isOpen('pumping')}>
        <PumpingFields />
      </OptionalPart>
      <OptionalPart title="Cleaning" said={said.cleaning} isOpen={isOpen('cleaning')}>
        <CleaningFields />
      </OptionalPart>
    </>
  );
}

function FilmFields() {
  const { draft, figures } = useSetup();
  const assumed = assumedFilms(figures);
  return (
    <>
      <p className={styles.wholeSaid}>
        How the clean resistance at the duty point splits, and how each film follows its flow. Empty fields
        are assumed by construction, as shown in them.
      </p>
      <NumberField
        path="films.hotShare"
        label="Hot film"
        suffix="% of the resistance"
        placeholder={assumed.hotShare}
      />
      <NumberField
        path="films.wallShare"
        label="Wall"
        suffix="% of the resistance"
        placeholder={assumed.wallShare}
      />
      <NumberField
        path="films.hotExponent"
        label="Exponent, hot film"
        placeholder={assumed.hotExponent}
        hint="0 to 1"
      />
      <NumberField
        path="films.coldExponent"
        label="Exponent, cold film"
        placeholder={assumed.coldExponent}
        hint="0 to 1"
      />
      <SelectField
        path="clean"
        label="Clean reference"
        options={CLEAN}
        hint="Until one is accepted on the page of the clean reference."
      />
      {draft.clean === 'test' ? <CleanTestFields /> : null}
    </>
  );
}

function PressureDropFields() {
  return (
    <>
      <p className={styles.wholeSaid}>
        Where pressure drop is measured, it is brought to the design flow before it is judged: it grows with
        the flow to this power. The unit’s page says what its own readings give.
      </p>
      <NumberField
        path="pressureDrop.hotExponent"
        label="Exponent, hot side"
        placeholder={EXPONENT_ASSUMED}
        hint="1 to 2.2"
      />
      <NumberField
        path="pressureDrop.coldExponent"
        label="Exponent, cold side"
        placeholder={EXPONENT_ASSUMED}
        hint="1 to 2.2"
      />
    </>
  );
}

function SensorFields() {
  return (
    <>
      <p className={styles.wholeSaid}>
        Standard uncertainty, one standard deviation, of each sensor, and how much of its variance is the same
        in every reading (calibration): averaging does not shrink that part.
      </p>
      {SENSOR_FIELDS.map(({ sensor, kind, assumed, isFlow }) => (
        <div key={sensor} className={styles.sensor}>
          <QuantityField
            path={`sensors.${sensor}`}
            faultPath={`sensors.${sensor}.uncertainty`}
            kind={kind}
            label={SENSOR_WORDS[sensor]}
            placeholder={assumed}
            allowsPercent={kind !== 'temperatureDifference'}
          />
          <NumberField
            path={`sensors.${sensor}.systematicShare`}
            label="Same in every reading"
            suffix="%"
            placeholder="50 assumed"
          />
          {isFlow ? <SelectField path={`sensors.${sensor}.at`} label="Meter at" options={METER_AT} /> : null}
          {isFlow ? (
            <QuantityField
              path={`sensors.${sensor}.nominal`}
              kind="flow"
              label="Without a meter, assume"
              hint="A constant flow: 10 % uncertain unless stated"
            />
          ) : null}
        </div>
      ))}
    </>
  );
}
