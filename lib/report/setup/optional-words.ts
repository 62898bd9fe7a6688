import { FLOW_SENSORS, SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { PRESSURE_DROP_EXPONENT } from '@/lib/core/series/pressure-drop';
import { CHECK_FIELDS } from './check-fields';
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

type PartName = 'films' | 'pressureDrop' | 'sensors' | 'checks' | 'energy' | 'pumping' | 'cleaning';

const isStated = (text: string) => text.trim() !== '';

/** What stands in the parts that are closed at first, in few words. */
export function saidOf(draft: UnitDraft): Record<PartName, string> {
  const { films, sensors, pressureDrop, cleaning } = draft;
  const stated = Object.values(films).filter(isStated).length;
  const known = Object.values(sensors).filter(({ value }) => isStated(value)).length;
  const assumed = FLOW_SENSORS.filter((sensor) => isStated(sensors[sensor].nominal.value)).length;
  const constant = assumed === 0 ? '' : '; a constant flow assumed where there is no meter';
  const reference = REFERENCE_SAID[draft.clean];
  return {
    films: `${stated === 0 ? 'assumed by construction' : `${stated} of 4 stated`}${reference}`,
    pressureDrop: Object.values(pressureDrop).some(isStated)
      ? 'exponent stated'
      : `grows with the flow to the power ${PRESSURE_DROP_EXPONENT}`,
    sensors: `${known === 0 ? 'usual uncertainties assumed' : `${known} of ${SENSORS.length} stated`}${constant}`,
    checks: checksSaid(draft),
    energy: energySaid(draft),
    pumping: pumpingSaid(draft),
    cleaning: `${isStated(cleaning.cost) ? 'cost stated' : 'not stated: no economic day'}${
      cleaning.when === 'outage' ? '; in outages only' : ''
    }`,
  };
}

function checksSaid({ checks }: UnitDraft): string {
  const changed = CHECK_FIELDS.filter((field) =>
    isStated(field.by === 'temperature' ? checks[field.name].value : checks[field.name]),
  ).length;
  return changed === 0
    ? 'usual thresholds for hourly readings'
    : `${changed} of ${CHECK_FIELDS.length} thresholds stated`;
}

function energySaid({ energy }: UnitDraft): string {
  if (energy.effect === '') return 'not stated: losses are not priced';
  const price = isStated(energy.supply)
    ? `supply: ${energy.supply.trim()}`
    : isStated(energy.price.amount)
      ? 'priced'
      : 'no price';
  return energy.heldOutlet === '' ? price : `${price}; a valve holds the ${energy.heldOutlet} outlet`;
}

function pumpingSaid({ pumping }: UnitDraft): string {
  if (isStated(pumping.supply)) return `supply: ${pumping.supply.trim()}`;
  return isStated(pumping.price.amount) ? 'priced' : 'not stated: extra pumping is not priced';
}
