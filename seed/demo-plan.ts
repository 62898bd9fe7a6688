import type { Calendar } from '@/lib/contract/calendar';
import type { FleetFile, Unit } from '@/lib/contract/fleet-file';
import { FERROW_POINT, KALDHOLM } from './demo-fleet';
import { FERROW_POINT_SUPPLIES, KALDHOLM_SUPPLIES, type SupplyPlan, suppliesAt } from './demo-supplies';
import { type DatedDatasheet, datedDatasheets } from './generate/dated-models';
import type { RecordSpan } from './generate/generate-readings';
import { MS_PER_DAY, shiftStart } from './generate/true-cycles';
import type { UnitPlan } from './generate/unit-plan';
import { FERROW_POINT_STORIES } from './histories/ferrow-point';
import { KALDHOLM_STORIES } from './histories/kaldholm';
import { DEMO_DAYS, planFromStory, type Story } from './histories/story';

const MS_PER_HOUR = 3_600_000;
/** Any number will do; this one has been looked at. */
const DEMO_SEED = 20_260;

/** An outage by days from the end of the record: below 0 it is past. */
type OutagePlan = { name: string; fromDay: number; toDay: number; crewHours?: number };

type DemoSite = {
  fleet: FleetFile;
  utcOffsetHours: number;
  stories: Story[];
  supplies: SupplyPlan[];
  outages: OutagePlan[];
  /** Work a week outside outages [h], and units that take over from each other. */
  crewHoursPerWeek: number;
  notTogether: string[][];
};

const DEMO_SITES: DemoSite[] = [
  {
    fleet: FERROW_POINT,
    utcOffsetHours: 0,
    stories: FERROW_POINT_STORIES,
    supplies: FERROW_POINT_SUPPLIES,
    outages: [
      { name: 'Boiler inspection', fromDay: -322, toDay: -318 },
      { name: 'Half-year stop', fromDay: -121, toDay: -117 },
      { name: 'Half-year stop', fromDay: 46, toDay: 51, crewHours: 150 },
      { name: 'Boiler inspection', fromDay: 205, toDay: 210, crewHours: 120 },
    ],
    crewHoursPerWeek: 40,
    notTogether: [
      ['SC-151', 'SC-152'],
      ['TW-161', 'TW-162'],
      ['LC-171', 'LC-172'],
    ],
  },
  {
    fleet: KALDHOLM,
    utcOffsetHours: 2,
    stories: KALDHOLM_STORIES,
    supplies: KALDHOLM_SUPPLIES,
    outages: [
      { name: 'Turbine overhaul', fromDay: -264, toDay: -254 },
      { name: 'Network stop', fromDay: -88, toDay: -85 },
      { name: 'Network stop', fromDay: 27, toDay: 30, crewHours: 180 },
      { name: 'Turbine overhaul', fromDay: 118, toDay: 128, crewHours: 360 },
      { name: 'Network stop', fromDay: 236, toDay: 239, crewHours: 180 },
    ],
    crewHoursPerWeek: 72,
    notTogether: [['DH-201', 'DH-202']],
  },
];

/** The last full hour before an instant [ms]: where a demonstration record ends. */
export function lastHour(instant: number): number {
  return Math.floor(instant / MS_PER_HOUR) * MS_PER_HOUR;
}

/** The record of one unit of the demonstration: eighteen months of hourly readings up to `end` [ms]. */
export function demoSpan(end: number, index: number): RecordSpan {
  return { start: end - DEMO_DAYS * MS_PER_DAY, end, stepMs: MS_PER_HOUR, seed: DEMO_SEED + index };
}

/** Plans of every unit of the demonstration, in the order of the fleet files. */
export function demoPlans(): UnitPlan[] {
  return DEMO_SITES.flatMap(({ fleet, stories, utcOffsetHours }) =>
    fleet.units.map((unit) => {
      const story = stories.find(({ tag }) => tag === unit.tag);
      if (story === undefined) throw new RangeError(`no story of unit ${unit.tag}`);
      return planFromStory(story, unit, utcOffsetHours);
    }),
  );
}

/**
 * The fleet files in the order in which they were registered: those of a unit that was changed with its datasheets before,
 * oldest first, then with the present one and since when it holds. `end` [ms] is the end of the record.
 */
export function demoRegistrations(end: number): FleetFile[] {
  const datasheets = new Map(demoPlans().map((plan) => [plan.unit.tag, datedDatasheets(plan, end)]));
  return DEMO_SITES.flatMap(({ fleet, supplies }) => {
    const site = { ...fleet.site, supplies: suppliesAt(supplies, end) };
    const versions = fleet.units.map(({ tag }) => datasheets.get(tag)!.map(withValidity));
    const most = Math.max(...versions.map(({ length }) => length));
    return Array.from({ length: most }, (_, number) => ({
      site,
      units: versions.map((each) => each[Math.min(number, each.length - 1)]!),
    }));
  });
}

function withValidity({ unit, from }: DatedDatasheet): Unit {
  return from === null ? unit : { ...unit, validFrom: new Date(from).toISOString() };
}

export type DemoOutage = { site: string; name: string; from: number; to: number; crewHours?: number };

/** Outages of both sites, past and to come, as instants [ms]. */
export function demoOutages(end: number): DemoOutage[] {
  return DEMO_SITES.flatMap(({ fleet, outages, utcOffsetHours }) =>
    outages.map(({ fromDay, toDay, ...outage }) => ({
      site: fleet.site.name,
      ...outage,
      from: shiftStart(end + fromDay * MS_PER_DAY, utcOffsetHours),
      to: shiftStart(end + toDay * MS_PER_DAY, utcOffsetHours),
    })),
  );
}

/** When each site can be cleaned: its outages, its crew outside them, and units that must not be out together. */
export function demoCalendars(end: number): Calendar[] {
  const outages = demoOutages(end);
  return DEMO_SITES.map(({ fleet, crewHoursPerWeek, notTogether }) => ({
    site: fleet.site.name,
    outages: outages
      .filter(({ site }) => site === fleet.site.name)
      .map(({ site: _, from, to, ...outage }) => ({
        ...outage,
        from: new Date(from).toISOString(),
        to: new Date(to).toISOString(),
      })),
    crewHoursPerWeek,
    notTogether,
  }));
}
