import {
  PRESSURE_DROP_SENSORS,
  SENSORS,
  type Sensor,
  TEMPERATURE_SENSORS,
} from '@/lib/core/exchange/exchanger';
import type { DisplayKind } from '@/lib/report/format/display-unit';
import { formatNumber } from '@/lib/report/format/figure';
import { ucumInWords } from '@/lib/report/format/ucum-words';
import { SENSOR_WORDS } from '@/lib/report/format/words';
import type { UnitRecord } from '@/lib/report/records';
import { bothSystems, type DatasheetRow } from './datasheet-row';

/** Standard uncertainty of each sensor, the assumed ones marked. Pressure drops appear only where the datasheet names them. */
export function datasheetSensors(record: UnitRecord): DatasheetRow[] {
  return SENSORS.filter((sensor) => isShown(record, sensor)).map((sensor) => sensorRow(record, sensor));
}

function isShown({ unit }: UnitRecord, sensor: Sensor): boolean {
  return !isOneOf(PRESSURE_DROP_SENSORS, sensor) || unit.sensors?.[sensor] !== undefined;
}

function sensorRow({ unit, exchanger }: UnitRecord, sensor: Sensor): DatasheetRow {
  const stated = unit.sensors?.[sensor];
  const { absolute, relative, systematicShare } = exchanger.sensors[sensor];
  const given = stated?.uncertainty;
  const figures =
    absolute > 0 ? bothSystems(absolute, kindOf(sensor)) : { si: percent(relative), us: percent(relative) };
  const share = `${formatNumber(systematicShare * 100, 0)} % of its variance is the same in every reading`;
  const meterAt =
    sensor === 'hotFlow' ? exchanger.hotMeterAt : sensor === 'coldFlow' ? exchanger.coldMeterAt : null;
  const notes = [
    given === undefined ? 'Assumed' : null,
    share,
    meterAt === null ? null : `meter at the ${meterAt}`,
  ];
  return {
    label: SENSOR_WORDS[sensor].replace(/^./, (letter) => letter.toUpperCase()),
    given: givenText(given),
    ...figures,
    note: `${notes.filter((note) => note !== null).join('; ')}.`,
  };
}

function givenText(given: number | { value: number; unit: string } | undefined): string {
  if (given === undefined) return 'not stated';
  return typeof given === 'number' ? percent(given) : `${given.value} ${ucumInWords(given.unit)}`;
}

function percent(share: number): string {
  return `${formatNumber(share * 100, share < 0.01 ? 2 : 1)} %`;
}

function kindOf(sensor: Sensor): DisplayKind {
  if (isOneOf(TEMPERATURE_SENSORS, sensor)) return 'temperatureDifference';
  return isOneOf(PRESSURE_DROP_SENSORS, sensor) ? 'pressure' : 'massFlow';
}

function isOneOf<T extends string>(list: readonly T[], value: string): value is T {
  return (list as readonly string[]).includes(value);
}
