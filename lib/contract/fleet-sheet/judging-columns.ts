import { type ColumnWords, columnsOf } from './make-columns';
import type { SheetColumn } from './sheet-column';
import { UNIT_LEAVES } from './unit-leaves';

const group = (name: string, words: ColumnWords[]) => columnsOf(UNIT_LEAVES, name, words);

const SIDES = [
  ['hot', 'Hot'],
  ['cold', 'Cold'],
] as const;

const limit = (path: string, heading: string, meaning: string, example?: number): ColumnWords => ({
  path: `limits.${path}`,
  heading,
  meaning: `${meaning}. At least one limit of any kind is required`,
  isList: true,
  ...(example === undefined ? {} : { example }),
});

const limits = group('Limits', [
  limit('fouling-resistance.value', 'Limit fouling resistance', 'Clean before it exceeds this', 0.0002),
  limit('cleanliness.below', 'Limit cleanliness', 'Clean before U falls below this share of the clean one'),
  ...SIDES.flatMap(([side, Side]) => [
    limit(
      `outlet-temperature.${side}.above`,
      `Limit ${side} outlet above`,
      `Clean before the ${side} outlet gets warmer than this`,
    ),
    limit(
      `outlet-temperature.${side}.below`,
      `Limit ${side} outlet below`,
      `Clean before the ${side} outlet gets colder than this`,
    ),
    limit(
      `pressure-drop.${side}.above`,
      `Limit ${side} pressure drop`,
      `${Side} side: clean before its pressure drop exceeds this`,
    ),
  ]),
]);

const energy = group('Energy', [
  {
    path: 'energy.effect',
    heading: 'Energy effect',
    meaning: 'What the unit does with the heat; leave all of Energy empty where losses are not priced',
    example: 'cooling',
  },
  {
    path: 'energy.supply',
    heading: 'Energy supply',
    meaning:
      'Supply of the site that makes up for lost heat, as on the sheet "Supplies"; its prices take the place of the ones here',
  },
  {
    path: 'energy.price',
    heading: 'Energy price',
    meaning: 'Money of the site per unit of energy bought',
    example: 0.08,
  },
  {
    path: 'energy.carbon',
    heading: 'Energy carbon',
    meaning: 'Carbon dioxide per unit of energy bought',
    example: 0.2,
  },
  { path: 'energy.efficiency', heading: 'Energy efficiency', example: 4 },
  { path: 'energy.heldOutlet', heading: 'Held outlet' },
]);

const cleaning = group('Cleaning', [
  {
    path: 'cleaning.cost',
    heading: 'Cleaning cost',
    meaning: 'Of one cleaning, in the money of the site',
    example: 4000,
  },
  {
    path: 'cleaning.duration',
    heading: 'Cleaning duration',
    meaning: 'How long the unit is out',
    example: 12,
  },
  {
    path: 'cleaning.crewHours',
    heading: 'Cleaning crew hours',
    meaning: 'Hours of work of all people together',
    example: 24,
  },
  {
    path: 'cleaning.method',
    heading: 'Cleaning method',
    meaning: 'Usual method',
    example: 'high-pressure water',
  },
  { path: 'cleaning.inOutageOnly', heading: 'In outages only' },
  { path: 'cleaning.downtimePerHour', heading: 'Downtime cost per hour' },
]);

/** By what a unit is judged: its limits, what lost heat and a cleaning cost. */
export const JUDGING_COLUMNS: readonly SheetColumn[] = [...limits, ...energy, ...cleaning];
