import type { Fault } from '@/lib/contract/app-error';
import { toCheckSettings } from '@/lib/contract/exchanger-from-unit';
import type { Unit } from '@/lib/contract/fleet-file';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { designState } from './design-state';

/** Duties of a design point that differ by more than this share of their mean are no rounding and no heat loss (own choice). */
const LARGEST_IMBALANCE = 0.2;

/** What each field by itself allows and all of them together do not; a datasheet that is stored already is not asked. */
export function datasheetFaults(unit: Unit, exchanger: Exchanger): Fault[] {
  return [...thresholdFaults(unit), ...dutyFaults(exchanger)];
}

/** Thresholds the wrong way round would set every reading aside; what is not stated is at its default. */
export function thresholdFaults(unit: Unit): Fault[] {
  const { minimumTemperature, maximumTemperature } = toCheckSettings(unit);
  if (minimumTemperature < maximumTemperature) return [];
  const message =
    unit.checks?.minimumTemperature === undefined
      ? `must be above the lowest temperature, ${minimumTemperature} °C where minimumTemperature is not stated`
      : unit.checks.maximumTemperature === undefined
        ? `must be below the highest temperature, ${maximumTemperature} °C where maximumTemperature is not stated`
        : 'must be below maximumTemperature: no reading would be in between';
  const field = unit.checks?.minimumTemperature === undefined ? 'maximumTemperature' : 'minimumTemperature';
  return [{ field: `checks.${field}`, message }];
}

/** The clean reference follows from the mean of both duties, unless it is stated: duties far apart make it a guess. */
function dutyFaults(exchanger: Exchanger): Fault[] {
  if (exchanger.design.cleanU !== null) return [];
  const state = designState(exchanger);
  if (state === null) return [];
  const { hotDuty, coldDuty } = state;
  const imbalance = Math.abs(hotDuty - coldDuty) / ((hotDuty + coldDuty) / 2);
  if (!(imbalance > LARGEST_IMBALANCE)) return [];
  const message = `the hot stream gives up ${kilowatts(hotDuty)} and the cold one takes up ${kilowatts(coldDuty)}, ${Math.round(100 * imbalance)} % apart: check temperatures, flows and fluids, or state cleanU`;
  return [{ field: 'design', message }];
}

function kilowatts(duty: number): string {
  return `${Number((duty / 1000).toPrecision(3))} kW`;
}
