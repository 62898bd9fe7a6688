import { filmsOf } from '@/lib/contract/film-defaults';
import type { Unit } from '@/lib/contract/fleet-file';
import { inSi } from '@/lib/contract/quantity';
import type { Films } from '@/lib/core/exchange/exchanger';
import { makeRandom, type Random } from '@/lib/core/stats/random';
import { q } from '@/seed/fleet/quantities';
import { type OperationPlan, planUnit, type UnitPlan, USUAL_MEASUREMENT } from '@/seed/generate/unit-plan';
import { makeHeldOutFleet } from '@/seed/held-out';
import { between, oneOf } from './draw-growth';
import { cleaningPlans, drawHistory, type History } from './draw-history';
import { drawFaults } from './plan-faults';
import { MECHANISMS, RANGES, type Ranges, seedOf, type UnitKey } from './ranges';

/** Families of construction in a held-out fleet; one unit of each is drawn and one of them taken. */
const FAMILIES = 5;
/** A cold inlet stays this far above freezing in winter, its weather apart [K]. */
const ABOVE_FREEZING = 6;
/** The record goes on a little after the last cycle, of which everything has been asked. */
const DAYS_AFTER_LAST = 2;

export type PlannedUnit = {
  plan: UnitPlan;
  history: History;
  days: number;
  stepHours: number;
  isLearned: boolean;
};

/** One unit of a simulated fleet: its datasheet, how it is run and measured, and everything that happens to it. */
export function planSimulated(key: UnitKey, attempt: number): PlannedUnit {
  const ranges = RANGES[key.set];
  const seed = seedOf(key, attempt);
  const random = makeRandom(seed);
  const isLearned = random.uniform() < ranges.learned;
  const unit = drawDatasheet(random, { seed, ranges, isLearned });
  const mechanism = MECHANISMS[key.index % MECHANISMS.length]!;
  const history = drawHistory(random, { ranges, scenario: key.scenario, mechanism, isLearned });
  const days = history.cycles.at(-1)!.endDays + DAYS_AFTER_LAST;
  const isHard = key.scenario === 'hard';
  const plan = planUnit({
    unit,
    first: { ageDays: history.firstAgeDays, growth: history.cycles[0]!.growth },
    cleanings: cleaningPlans(random, history, days),
    operation: drawOperation(random, unit, ranges),
    measurement: {
      ...USUAL_MEASUREMENT,
      noise: ranges.noise,
      bias: ranges.bias,
    },
    cleanScale: isLearned ? between(random, ...ranges.cleanScale) : 1,
    trueFilms: isHard ? wrongFilms(random, filmsOf(unit), ranges.exponentError) : {},
    wander: between(random, ...ranges.wander),
    faults: drawFaults(random, { history, days, drift: isHard ? ranges.drift : null }),
  });
  return { plan, history, days, stepHours: oneOf(random, ranges.stepHours), isLearned };
}

type DatasheetDraw = { seed: number; ranges: Ranges; isLearned: boolean };

/** A balanced datasheet of a random family with the set's sensors and limit. */
function drawDatasheet(random: Random, { seed, ranges, isLearned }: DatasheetDraw): Unit {
  const unit = oneOf(random, makeHeldOutFleet(seed, FAMILIES).fleet.units);
  const limit = unit.limits[0]!;
  if (limit.kind !== 'fouling-resistance') throw new RangeError('a held-out unit has a fouling limit');
  const value = q(limit.value.value * between(random, ...ranges.limitScale), limit.value.unit);
  const thermometer = q(between(random, ...ranges.thermometer), 'K');
  const flow = { uncertainty: between(random, ...ranges.flowMeter) };
  const sensors = {
    ...Object.fromEntries(
      ['hotIn', 'hotOut', 'coldIn', 'coldOut'].map((name) => [name, { uncertainty: thermometer }]),
    ),
    hotFlow: flow,
    coldFlow: flow,
  };
  return {
    ...unit,
    limits: [{ kind: 'fouling-resistance', value }],
    sensors,
    clean: isLearned ? 'learned' : 'datasheet',
  };
}

/** The truth behind a datasheet whose film exponents are wrong, each up or down. */
function wrongFilms(random: Random, films: Films, error: number): Partial<Films> {
  const wrong = (exponent: number) =>
    Math.min(0.95, Math.max(0.3, exponent + (random.uniform() < 0.5 ? -error : error)));
  return { hotExponent: wrong(films.hotExponent), coldExponent: wrong(films.coldExponent) };
}

/** Cooling water, sea or air follow the season; both flows follow season, week and load. */
function drawOperation(random: Random, unit: Unit, ranges: Ranges): OperationPlan {
  const coldIn = inSi(unit.design.coldIn, 'temperature');
  const season = Math.min(between(random, ...ranges.coldSeason), Math.max(0, coldIn - ABOVE_FREEZING));
  const flow = () => ({
    share: between(random, 0.82, 0.98),
    season: between(random, ...ranges.flowSeason) * (random.uniform() < 0.5 ? -1 : 1),
    day: between(random, 0, 0.04),
    weekend: between(random, ...ranges.flowWeekend),
    noise: between(random, ...ranges.flowNoise),
  });
  return {
    hotIn: { shift: 0, season: 0, day: 0.5, noise: between(random, 0.5, 1.5) },
    coldIn: { shift: 0, season, day: between(random, 0.3, 1), noise: between(random, 0.3, 1) },
    hotFlow: flow(),
    coldFlow: flow(),
    batchHours: null,
    runsAtWeekends: true,
  };
}
