import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME, type ReadingColumns } from '../series/reading-columns';
import { PLACE, type UnitModel } from './unit-model';

/**
 * The sensors of the balance that one reading has values of. A volume flow that no density can turn into a mass flow (none
 * stated, or the meter sits in vapour) is as good as not measured.
 *
 * @param model    the unit
 * @param readings columns of length n [°C, kg/s or m³/s]
 * @param i        which reading [-]
 * @returns bits in the order of `BALANCE_SENSORS` [-]
 * @range  0 ≤ i < n
 * @source METHODS §3
 * @check  tests/core/fouling/installed-sensors.test.ts
 */
export function measuredSensors({ hasMeterDensity }: UnitModel, readings: ReadingColumns, i: number): number {
  const { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow } = PLACE;
  const basis = readings.flowBasis[i]!;
  const isHotUsable = (basis & HOT_FLOW_IS_VOLUME) === 0 || hasMeterDensity.hot;
  const isColdUsable = (basis & COLD_FLOW_IS_VOLUME) === 0 || hasMeterDensity.cold;
  return (
    bitIfGiven(readings.hotIn[i]!, hotIn) |
    bitIfGiven(readings.hotOut[i]!, hotOut) |
    bitIfGiven(readings.coldIn[i]!, coldIn) |
    bitIfGiven(readings.coldOut[i]!, coldOut) |
    (isHotUsable ? bitIfGiven(readings.hotFlow[i]!, hotFlow) : 0) |
    (isColdUsable ? bitIfGiven(readings.coldFlow[i]!, coldFlow) : 0)
  );
}

function bitIfGiven(value: number, place: number): number {
  return Number.isNaN(value) ? 0 : 1 << place;
}
