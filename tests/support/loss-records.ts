import type { Unit } from '@/lib/contract/fleet-file';
import { makeDailyColumns } from '@/lib/core/series/daily-columns';
import type { AnalysedUnit, FleetRecords, SiteRecord } from '@/lib/report/records';
import { fleetOf, QUAY, TODAY } from './fleet-records';
import { waterUnit } from './forward-readings';

export const HILL: SiteRecord = { id: 2, name: 'Hill', timeZone: 'Europe/Helsinki', currency: 'SEK' };

/** A unit that loses as much heat on each of its days. */
export type LosingStory = {
  tag: string;
  service?: string;
  site?: SiteRecord;
  /** Lost duty [kW]. */
  kW: number;
  /** Days of its record, the last of them today; those left out have no figure. */
  days?: number;
  silentDays?: number;
  energy?: Unit['energy'];
  held?: 'hot' | 'cold';
};

/** A fleet of such units at two sites of two currencies; nothing else of them is known. */
export function losingFleet(stories: LosingStory[], sites: SiteRecord[] = [QUAY, HILL]): FleetRecords {
  const fleet = fleetOf(
    stories.map(({ tag, service, site }) => ({ tag, service, site, cleaned: [] })),
    sites,
  );
  stories.forEach((story, index) => {
    makeItLose(fleet.units[index]!, story);
  });
  return fleet;
}

function makeItLose(unit: AnalysedUnit, story: LosingStory): void {
  const { kW, days = 365, silentDays = 0, energy, held } = story;
  const exchanger = waterUnit();
  unit.record.exchanger = { ...exchanger, losses: { ...exchanger.losses, heldOutlet: held ?? null } };
  unit.record.unit = {
    ...unit.record.unit,
    ...(energy === undefined
      ? {}
      : { energy: held === undefined ? energy : { ...energy, heldOutlet: held } }),
  } as Unit;
  const length = days - silentDays;
  const daily = makeDailyColumns(length);
  for (let row = 0; row < length; row++) {
    daily.day[row] = TODAY - days + 1 + row;
    daily.lostDuty[row] = 1000 * kW;
    daily.foulingResistance[row] = 1e-4;
  }
  unit.daily = daily;
  unit.trend!.cycles = [{ ...unit.trend!.cycles[0]!, start: null, startDay: TODAY - days + 1 }];
}
