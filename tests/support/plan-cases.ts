import type { PlanInput, PlanOutage, PlanUnitInput } from '../../lib/core/plan/plan-input';

import { makeRandom, type Random } from '../../lib/core/stats/random';

/** A Thursday: 1 January 2026. */
export const FIRST_DAY = 20_454;
const WEEK_DAYS = 7;
const JOULES_PER_MWH = 3.6e9;

/** A fleet whose duty falls linearly at unlike rates; two outages, a weekly crew, some pairs, some units over their limit. */
export function fleetInput(size: {
  units: number;
  weeks: number;
  crewHours: number;
  seed: number;
}): PlanInput {
  const random = makeRandom(size.seed);
  const to = FIRST_DAY + size.weeks * WEEK_DAYS;
  const outageDays = 10;
  const outages: PlanOutage[] = [0.3, 0.8].map((share, index) => {
    const from = FIRST_DAY + Math.round(share * size.weeks) * WEEK_DAYS;
    const crewHours = size.crewHours * 6;
    return { name: `Outage ${index + 1}`, from, to: from + outageDays, crewHours, site: null };
  });
  const units = Array.from({ length: size.units }, (_, index) => fleetUnit(random, `E-${index + 1}`));
  const notTogether = Array.from({ length: Math.floor(size.units / 10) }, (_, pair) => [
    `E-${2 * pair + 1}`,
    `E-${2 * pair + 2}`,
  ]);
  const crews = [{ site: null, hoursPerWeek: size.crewHours }];
  return { from: FIRST_DAY, to, confidence: 0.9, outages, crews, notTogether, units, locked: [] };
}

function fleetUnit(random: Random, tag: string): PlanUnitInput {
  const growth = 200 + 3000 * random.uniform() ** 2;
  const begun = 200 * random.uniform();
  const ages = [0, 100, 200, 400, 800];
  const grown = (from: number) => ages.map((age) => growth * (from + age));
  const life = random.uniform() < 0.6 ? 150 + 400 * random.uniform() : null;
  const deadline = life === null ? null : FIRST_DAY + Math.max(-10, life - begun);
  return {
    tag,
    site: 'North',
    asOf: FIRST_DAY - 1,
    ages,
    lostDuty: grown(begun),
    pumping: ages.map(() => 0),
    lostDutyAfter: grown(0),
    pumpingAfter: ages.map(() => 0),
    heatRates: [{ fromDay: 0, perJoule: 35 / JOULES_PER_MWH }],
    pumpingRates: [],
    deadline,
    isOverdue: deadline !== null && deadline < FIRST_DAY,
    life,
    cleaning: {
      cost: 2000 + 10_000 * random.uniform(),
      durationDays: Math.round(1 + 4 * random.uniform()),
      crewHours: Math.round(16 + 60 * random.uniform()),
      method: null,
      inOutageOnly: random.uniform() < 0.15,
      downtimePerDay: random.uniform() < 0.3 ? 0 : 3000 * random.uniform(),
    },
  };
}

/** A small problem drawn at random: few units and options, crews that are short, pairs, locked and overdue units. */
export function randomInput(seed: number, size: { units: number; weeks: number }): PlanInput {
  const random = makeRandom(seed);
  const pick = (from: number, to: number) => from + (to - from) * random.uniform();
  const to = FIRST_DAY + (size.weeks + 1) * WEEK_DAYS;
  const units = Array.from({ length: 1 + Math.floor(random.uniform() * size.units) }, (_, index) =>
    randomUnit(random, `E-${index + 1}`, to),
  );
  const outages = Array.from({ length: Math.floor(random.uniform() * 3) }, (_, index): PlanOutage => {
    const from = FIRST_DAY + Math.floor(pick(0, (size.weeks - 1) * WEEK_DAYS));
    const crewHours = random.uniform() < 0.5 ? null : Math.round(pick(10, 60));
    const site = random.uniform() < 0.7 ? null : 'North';
    return { name: `Outage ${index + 1}`, from, to: from + Math.floor(pick(1, 9)), crewHours, site };
  });
  const crews = random.uniform() < 0.92 ? [{ site: null, hoursPerWeek: Math.round(pick(15, 70)) }] : [];
  const tags = units.map(({ tag }) => tag);
  const notTogether = random.uniform() < 0.5 ? [tags.slice(0, 2), tags.slice(1, 4)] : [];
  const locked = tags
    .filter(() => random.uniform() < 0.05)
    .map((tag) => ({ tag, start: Math.floor(pick(FIRST_DAY, to)) }));
  return {
    from: FIRST_DAY,
    to,
    confidence: 0.9,
    outages,
    crews,
    notTogether: notTogether.filter((group) => group.length > 1),
    units,
    locked,
  };
}

function randomUnit(random: Random, tag: string, to: number): PlanUnitInput {
  const pick = (from: number, until: number) => from + (until - from) * random.uniform();
  const ages = [0, 10, 30, 80];
  const rising = (from: number) => {
    let value = from;
    return ages.map(() => {
      value += pick(0, 60_000);
      return value;
    });
  };
  const days = to - FIRST_DAY;
  const hasLimit = random.uniform() < 0.5;
  const deadline = hasLimit ? FIRST_DAY + pick(-0.1 * days, 1.1 * days) : null;
  return {
    tag,
    site: random.uniform() < 0.7 ? 'North' : 'South',
    asOf: FIRST_DAY - 1,
    ages,
    lostDuty: rising(pick(0, 200_000)),
    pumping: rising(0),
    lostDutyAfter: rising(0),
    pumpingAfter: rising(0),
    heatRates: [
      { fromDay: FIRST_DAY - 100, perJoule: pick(10, 60) / JOULES_PER_MWH },
      { fromDay: FIRST_DAY + Math.floor(days / 2), perJoule: pick(10, 60) / JOULES_PER_MWH },
    ],
    pumpingRates: [{ fromDay: FIRST_DAY + 3, perJoule: pick(10, 60) / JOULES_PER_MWH }],
    deadline,
    isOverdue: deadline !== null && deadline < FIRST_DAY,
    life: hasLimit && random.uniform() < 0.7 ? pick(0.3 * days, 1.2 * days) : null,
    cleaning: {
      cost: pick(100, 3000),
      durationDays: random.uniform() < 0.15 ? 0 : Math.round(pick(0.5, 9) * 2) / 2,
      crewHours: Math.round(pick(0, 40)),
      method: null,
      inOutageOnly: random.uniform() < 0.1,
      downtimePerDay: random.uniform() < 0.5 ? 0 : pick(0, 400),
    },
  };
}
