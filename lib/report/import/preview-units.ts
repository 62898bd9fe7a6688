import type { Sensor } from '@/lib/core/exchange/exchanger';
import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import { type DisplayUnit, displayUnit } from '@/lib/report/format/display-unit';
import type { UnitSystem } from '@/lib/report/format/unit-system';

/** Unit a sensor's values are shown in; flows by whether their meter reads volume or mass. */
export function unitOf(sensor: Sensor, flowBasis: number, system: UnitSystem): DisplayUnit {
  if (sensor === 'hotFlow') return flowUnit(flowBasis & HOT_FLOW_IS_VOLUME, system);
  if (sensor === 'coldFlow') return flowUnit(flowBasis & COLD_FLOW_IS_VOLUME, system);
  return displayUnit(sensor.endsWith('Drop') ? 'pressure' : 'temperature', system);
}

function flowUnit(isVolume: number, system: UnitSystem): DisplayUnit {
  return displayUnit(isVolume === 0 ? 'massFlow' : 'volumeFlow', system);
}
