import { FLOW_SENSORS, SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
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

/** What stands in the parts that are closed at first, in few words. */
export function saidOf(draft: UnitDraft): Record<'films' | 'sensors' | 'energy' | 'cleaning', string> {
  const { films, sensors, energy, cleaning } = draft;
  const stated = Object.values(films).filter((value) => value.trim() !== '').length;
  const known = Object.values(sensors).filter(({ value }) => value.trim() !== '').length;
  const isPriced = energy.price.amount.trim() !== '';
  const isCosted = cleaning.cost.trim() !== '';
  const reference = draft.clean === 'learned' ? '; reference learned after a cleaning' : '';
  return {
    films: `${stated === 0 ? 'assumed by construction' : `${stated} of 4 stated`}${reference}`,
    sensors: known === 0 ? 'usual uncertainties assumed' : `${known} of ${SENSORS.length} stated`,
    energy: energy.effect === '' ? 'not stated: losses are not priced' : isPriced ? 'priced' : 'no price',
    cleaning: isCosted ? 'cost stated' : 'not stated: no economic day',
  };
}
