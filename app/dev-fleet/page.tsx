import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readFleetAddress } from '@/lib/report/fleet-address';
import { fleetView } from '@/lib/report/fleet-view';
import { fleetOf, NOW, QUAY, type Story } from '@/tests/support/fleet-records';
import { FleetScreen } from '../(fleet)/fleet-screen';

const D = 86400000;
const HILL = { id: 2, name: 'Hillside dairy', timeZone: 'Europe/Helsinki', currency: 'EUR' };
const S: Story[] = [
  {
    tag: 'HW-11',
    service: 'Wash water heater',
    state: 'near-limit',
    cleaned: [118, 240],
    cycleDays: 121,
    cleanBy: [1, 3, 15],
    lostDuty: 30e3,
    perDay: 61,
  },
  {
    tag: 'HW-12',
    service: 'Wash water heater, spare',
    state: 'clean',
    cleaned: [10, 180],
    cycleDays: 150,
    cleanBy: [110, 138, 179],
    lostDuty: 3e3,
    perDay: 6,
  },
  {
    tag: 'PC-03',
    service: 'Product cooler',
    cleaned: [20, 130, 250],
    cycleDays: 115,
    cleanBy: [90, 114, 148],
    lostDuty: 12e3,
    perDay: 31,
  },
  {
    tag: 'CT-21',
    service: 'Tower water interchanger',
    state: 'over-limit',
    cleaned: [122, 250],
    cycleDays: 99,
    crossedDaysAgo: 24,
    cleanBy: [-30, -24, -20],
    lostDuty: 131e3,
    perDay: 262,
  },
  {
    tag: 'RG-05',
    service: 'Regenerator',
    state: 'near-limit',
    cleaned: [100, 240],
    cycleDays: 118,
    cleanBy: [12, 19, 35],
    lostDuty: 28e3,
    perDay: 48,
  },
  {
    tag: 'OC-02',
    service: 'Lube oil cooler',
    cleaned: [340],
    cycleDays: 420,
    cleanBy: [60, 80, 120],
    lostDuty: 29e3,
    perDay: 8.2,
    site: HILL,
  },
  {
    tag: 'FH-07',
    service: 'Feed heater',
    cleaned: [68],
    cycleDays: 290,
    cleanBy: [220, 271, null],
    lostDuty: 20e3,
    perDay: 40,
    site: HILL,
  },
  {
    tag: 'CD-01',
    service: 'Vapour condenser',
    cleaned: [150],
    cycleDays: 400,
    cleanBy: [null, null, null],
    withinHorizon: 0.04,
    lostDuty: 8e3,
    perDay: 14,
  },
  {
    tag: 'HN-31',
    service: 'Network substation 31',
    cleaned: [95],
    cycleDays: 330,
    cleanBy: [190, 240, 320],
    lostDuty: 27e3,
    perDay: 30,
    site: HILL,
  },
  {
    tag: 'HN-32',
    service: 'Network substation 32',
    cleaned: [140],
    cycleDays: 220,
    cleanBy: [60, 80, 105],
    usable: 0.31,
    lostDuty: 27e3,
    perDay: 30,
    site: HILL,
  },
  {
    tag: 'BW-04',
    service: 'Boiler water cooler',
    state: 'no-data',
    cleaned: [200],
    cycleDays: 300,
    silentDays: 41,
    usable: 0,
    lostDuty: null,
    perDay: null,
  },
  {
    tag: 'SW-09',
    service: 'Sea water cooler',
    cleaned: [55],
    cycleDays: 320,
    cleanBy: [220, 265, 350],
    lostDuty: 18e3,
    perDay: 20,
  },
];
export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const n = Number(given.n ?? 12);
  const stories = Array.from({ length: n }, (_, i) =>
    i < 12 ? S[i]! : { ...S[i % 12]!, tag: `${S[i % 12]!.tag}-${Math.floor(i / 12)}` },
  );
  const records = fleetOf(stories, [QUAY, HILL]);
  records.outages = [
    { id: 1, siteId: 1, name: 'December stop', from: NOW + 38 * D, to: NOW + 52 * D },
    { id: 2, siteId: 1, name: 'May outage', from: NOW + 158 * D, to: NOW + 174 * D },
    { id: 3, siteId: 2, name: 'Spring stop', from: NOW + 130 * D, to: NOW + 140 * D },
    { id: 4, siteId: 1, name: 'May outage', from: NOW - 200 * D, to: NOW - 185 * D },
  ];
  return <FleetScreen view={fleetView(records, readFleetAddress(given), await readUnitSystem(given))} />;
}
