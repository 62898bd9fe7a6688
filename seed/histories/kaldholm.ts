import { HARBOUR_BEFORE_MORE_PLATES } from '../fleet/kaldholm-district-heat';
import * as run from './operations';
import type { Story } from './story';

/** What happened at the heat and power station. Cleanings 87 and 262 days ago fell into its two outages. */
export const KALDHOLM_STORIES: Story[] = [
  // Eight months ago, soon after a cleaning, plates were added.
  {
    tag: 'DH-201',
    law: { kind: 'linear' },
    ageDays: 87,
    earlierDays: [175],
    dueInDays: 220,
    operation: run.TOWN_HEAT,
    before: { datasheet: HARBOUR_BEFORE_MORE_PLATES, untilDaysAgo: 240, changeHours: 10 },
  },
  // The middle cleaning was never written down.
  {
    tag: 'DH-202',
    law: { kind: 'linear' },
    ageDays: 87,
    earlierDays: [95, 80, 180],
    unrecorded: [1],
    dueInDays: 130,
    operation: run.TOWN_HEAT,
  },
  // Due within the month: scale sets in after a quiet month.
  {
    tag: 'DH-203',
    law: { kind: 'delayed-linear', delayDays: 30 },
    ageDays: 160,
    earlierDays: [172],
    dueInDays: 24,
    operation: run.TAP_WATER,
  },
  // A valve holds its pool water: fouling shows in the flow of district heat, not in the outlet.
  {
    tag: 'DH-204',
    law: { kind: 'falling-rate', exponent: 0.7 },
    ageDays: 87,
    earlierDays: [175],
    dueInDays: 140,
    operation: run.POOL_WATER,
  },
  {
    tag: 'DC-211',
    law: { kind: 'linear' },
    ageDays: 262,
    earlierDays: [],
    dueInDays: 125,
    operation: run.HEAT_CONDENSER,
    measurement: { unmeasured: ['hotFlow'] },
  },
  {
    tag: 'DC-212',
    law: { kind: 'asymptotic', asymptoteShare: 1.4, timeConstantDays: 170 },
    ageDays: 87,
    earlierDays: [175],
    operation: run.HEAT_CONDENSER,
    measurement: { unmeasured: ['hotFlow'] },
  },
  // Settles at six tenths of its limit.
  {
    tag: 'JW-241',
    law: { kind: 'asymptotic', asymptoteShare: 0.6, timeConstantDays: 80 },
    ageDays: 262,
    earlierDays: [],
  },
  { tag: 'TL-221', law: { kind: 'linear' }, ageDays: 262, earlierDays: [], dueInDays: 200 },
  {
    tag: 'TL-222',
    law: { kind: 'falling-rate', exponent: 0.5 },
    ageDays: 87,
    earlierDays: [175],
    dueInDays: 240,
  },
  // The last wash, in a hurry, took off six tenths.
  {
    tag: 'SW-223',
    law: { kind: 'linear' },
    ageDays: 70,
    earlierDays: [130, 120, 125],
    dueInDays: 62,
    lastRecovers: 0.6,
    operation: run.NORTHERN_SEA,
    // Its pressure drop is reached well before its fouling allowance.
    measurement: { coldPressureDrop: 55_000, pressureDropExponent: 1.7 },
  },
  // Its clean test, made when it was new, fell a little short of its datasheet.
  {
    tag: 'SW-224',
    law: { kind: 'linear' },
    ageDays: 87,
    earlierDays: [175],
    dueInDays: 100,
    operation: run.NORTHERN_SEA,
    cleanScale: 0.95,
  },
  { tag: 'GO-231', law: { kind: 'linear' }, ageDays: 200, earlierDays: [210], dueInDays: 180 },
  // One of its thermometers died, and the air flow is not measured: nothing can be said.
  {
    tag: 'AD-261',
    law: { kind: 'linear' },
    ageDays: 140,
    earlierDays: [210],
    dueInDays: 120,
    operation: run.NORTHERN_AIR,
    measurement: { unmeasured: ['coldFlow'] },
    faults: [{ kind: 'dead', sensor: 'hotOut', as: 'missing', fromDaysAgo: 38, toDaysAgo: 0 }],
  },
  {
    tag: 'CA-242',
    law: { kind: 'linear' },
    ageDays: 87,
    earlierDays: [175],
    dueInDays: 190,
    measurement: { unmeasured: ['hotFlow'] },
  },
  {
    tag: 'EX-243',
    law: { kind: 'falling-rate', exponent: 0.6 },
    ageDays: 87,
    earlierDays: [85, 90],
    dueInDays: 75,
    measurement: { unmeasured: ['hotFlow'] },
  },
  {
    tag: 'HO-251',
    law: { kind: 'linear' },
    ageDays: 262,
    earlierDays: [],
    dueInDays: 90,
    measurement: { unmeasured: ['hotFlow'] },
  },
  // No meter on either side: the flow of the make-up pump, which runs at one speed, is typed in.
  {
    tag: 'FP-271',
    law: { kind: 'linear' },
    ageDays: 87,
    earlierDays: [175],
    dueInDays: 240,
    operation: run.FIXED_SPEED_MAKE_UP,
    measurement: { unmeasured: ['hotFlow', 'coldFlow'] },
    faults: [{ kind: 'out-of-service', fromDaysAgo: 140, toDaysAgo: 115 }],
  },
  // Its feed boils on the shell side and leaves scale there.
  {
    tag: 'SG-281',
    law: { kind: 'linear' },
    ageDays: 87,
    earlierDays: [175],
    dueInDays: 160,
    operation: run.STEAM_RAISING,
  },
];
