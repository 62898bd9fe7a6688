import { FLOW_SENSORS, SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { PRESSURE_DROP_EXPONENT } from '@/lib/core/series/pressure-drop';
import type { FormKind } from './unit-choices';
import { sensorUnitKind, type UnitDraft } from './unit-draft';

export type SensorField = { sensor: Sensor; kind: FormKind; assumed: string; isFlow: boolean };

/** The sensors a form asks for, each with the uncertainty assumed where none is stated. */
export const SENSOR_FIELDS: SensorField[] = SENSORS.map((sensor) => {
  const kind = sensorUnitKind(sensor);
  const isFlow = (FLOW_SENSORS as readonly string[]).includes(sensor);
  return {
    sensor,
    kind,
    assumed: kind === 'temperatureDifference' ? '0.2 K assumed' : '2 % assumed',
    isFlow,
  };
});

/** The exponent of pressure drop on flow where the form leaves it out. */
export const EXPONENT_ASSUMED = `${PRESSURE_DROP_EXPONENT} assumed`;

const REFERENCE_SAID: Record<UnitDraft['clean'], string> = {
  datasheet: '',
  test: '; reference from one clean test',
  learned: '; reference learned after a cleaning',
};

/** What stands in the parts that are closed at first, in few words. */
export function saidOf(
  draft: UnitDraft,
): Record<'films' | 'pressureDrop' | 'sensors' | 'energy' | 'cleaning', string> {
  const { films, sensors, energy, cleaning } = draft;
  const stated = Object.values(films).filter((value) => value.trim() !== '').length;
  const known = Object.values(sensors).filter(({ value }) => value.trim() !== '').length;
  const assumed = FLOW_SENSORS.filter((sensor) => sensors[sensor].nominal.value.trim() !== '').length;
  const constant = assumed === 0 ? '' : '; a constant flow assumed where there is no meter';
  const isPriced = energy.price.amount.trim() !== '';
  const isCosted = cleaning.cost.trim() !== '';
  const reference = REFERENCE_SAID[draft.clean];
  return {
    films: `${stated === 0 ? 'assumed by construction' : `${stated} of 4 stated`}${reference}`,
    pressureDrop: Object.values(draft.pressureDrop).some((value) => value.trim() !== '')
      ? 'exponent stated'
      : `grows with the flow to the power ${PRESSURE_DROP_EXPONENT}`,
    sensors: `${known === 0 ? 'usual uncertainties assumed' : `${known} of ${SENSORS.length} stated`}${constant}`,
    energy: energy.effect === '' ? 'not stated: losses are not priced' : isPriced ? 'priced' : 'no price',
    cleaning: isCosted ? 'cost stated' : 'not stated: no economic day',
  };
}
