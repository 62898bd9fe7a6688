import * as run from './operations';
import type { Story } from './story';

/** What happened at the dairy. Cleanings 120 and 320 days ago fell into its two outages. */
export const FERROW_POINT_STORIES: Story[] = [
  {
    tag: 'RG-101',
    law: { kind: 'linear' },
    ageDays: 120,
    earlierDays: [200],
    dueInDays: 150,
    operation: run.PRODUCT_LINE,
  },
  {
    tag: 'RG-102',
    law: { kind: 'falling-rate', exponent: 0.6 },
    ageDays: 120,
    earlierDays: [200],
    dueInDays: 95,
    operation: run.PRODUCT_LINE,
  },
  { tag: 'MC-111', law: { kind: 'linear' }, ageDays: 120, earlierDays: [200], dueInDays: 210 },
  // Cleaned this week.
  {
    tag: 'MC-112',
    law: { kind: 'linear' },
    ageDays: 4,
    earlierDays: [105, 112, 108, 98],
    dueInDays: 118,
    operation: run.PRODUCT_ON_TOWER,
  },
  {
    tag: 'PH-121',
    law: { kind: 'delayed-linear', delayDays: 20 },
    ageDays: 62,
    earlierDays: [120, 118, 125],
    dueInDays: 72,
    operation: run.PRODUCT_LINE,
    measurement: { coldPressureDrop: 70_000 },
  },
  // Due within the month: milk salts bake on.
  {
    tag: 'EV-195',
    law: { kind: 'linear' },
    ageDays: 86,
    earlierDays: [104, 98, 101, 95],
    dueInDays: 19,
    operation: run.PRODUCT_LINE,
    measurement: { unmeasured: ['hotFlow'] },
  },
  // A clean closed circuit: nothing grows.
  {
    tag: 'GC-181',
    law: { kind: 'none' },
    ageDays: 320,
    earlierDays: [],
    measurement: { unmeasured: ['coldFlow'] },
  },
  {
    tag: 'HW-131',
    law: { kind: 'linear' },
    ageDays: 120,
    earlierDays: [200],
    dueInDays: 130,
    operation: run.HOT_WASH,
    measurement: { unmeasured: ['hotFlow'] },
  },
  // Poor data: a flow meter that spits, a thermometer that sticks, a logger that stops.
  {
    tag: 'HW-132',
    law: { kind: 'linear' },
    ageDays: 85,
    earlierDays: [190, 170],
    dueInDays: 120,
    operation: run.CRATE_WASH,
    measurement: { unmeasured: ['hotFlow'], gapsPerMonth: 6 },
    faults: [
      { kind: 'spikes', sensor: 'coldFlow', perMonth: 60, size: 0.9, fromDaysAgo: 120, toDaysAgo: 0 },
      { kind: 'dead', sensor: 'coldOut', as: 'frozen', fromDaysAgo: 26, toDaysAgo: 12 },
      { kind: 'dead', sensor: 'coldFlow', as: 'missing', fromDaysAgo: 9, toDaysAgo: 5 },
    ],
  },
  {
    tag: 'HW-133',
    law: { kind: 'linear' },
    ageDays: 48,
    earlierDays: [84, 90, 81, 88],
    dueInDays: 44,
    operation: run.HOT_WASH,
  },
  {
    tag: 'FH-141',
    law: { kind: 'falling-rate', exponent: 0.6 },
    ageDays: 320,
    earlierDays: [],
    dueInDays: 170,
    measurement: { unmeasured: ['hotFlow'] },
  },
  // For a week after a repair the two hot thermometers stood in each other's place.
  {
    tag: 'FH-142',
    law: { kind: 'linear' },
    ageDays: 140,
    earlierDays: [230],
    dueInDays: 110,
    faults: [{ kind: 'swapped', sensors: ['hotIn', 'hotOut'], fromDaysAgo: 60, toDaysAgo: 53 }],
  },
  {
    tag: 'AC-191',
    law: { kind: 'asymptotic', asymptoteShare: 1.6, timeConstantDays: 200 },
    ageDays: 90,
    earlierDays: [185, 140],
    operation: run.MILD_AIR,
  },
  // Over its limit for three weeks.
  {
    tag: 'SC-151',
    law: { kind: 'linear' },
    ageDays: 150,
    earlierDays: [118, 126, 113],
    dueInDays: -21,
    operation: run.MILD_SEA,
  },
  {
    tag: 'SC-152',
    law: { kind: 'linear' },
    ageDays: 72,
    earlierDays: [121, 117, 130],
    dueInDays: 58,
    operation: run.MILD_SEA,
  },
  // Its films follow the flow less than the datasheet believes.
  {
    tag: 'TW-161',
    law: { kind: 'linear' },
    ageDays: 120,
    earlierDays: [200],
    dueInDays: 190,
    operation: run.TOWER,
    trueFilms: { hotExponent: 0.6, coldExponent: 0.6 },
    measurement: { hotPressureDrop: 55_000, coldPressureDrop: 62_000 },
  },
  // Never as good as its datasheet, and its hot flow meter creeps: the balance leaks slowly.
  {
    tag: 'TW-162',
    law: { kind: 'linear' },
    ageDays: 160,
    earlierDays: [210],
    dueInDays: 230,
    operation: run.TOWER,
    cleanScale: 0.94,
    faults: [{ kind: 'drift', sensor: 'hotFlow', perDay: 0.0005, fromDaysAgo: 130, toDaysAgo: 0 }],
  },
  // Due within a fortnight.
  {
    tag: 'LC-171',
    law: { kind: 'linear' },
    ageDays: 175,
    earlierDays: [182, 150],
    dueInDays: 12,
    operation: run.TOWER,
  },
  {
    tag: 'LC-172',
    law: { kind: 'linear' },
    ageDays: 120,
    earlierDays: [200],
    dueInDays: 250,
    operation: run.TOWER,
    faults: [{ kind: 'spikes', sensor: 'hotOut', perMonth: 8, size: 15, fromDaysAgo: 400, toDaysAgo: 0 }],
  },
];
