import { type Sensor, TEMPERATURE_SENSORS } from '@/lib/core/exchange/exchanger';
import type { Random } from '@/lib/core/stats/random';
import type { FaultPlan } from '@/seed/generate/unit-plan';
import { between, oneOf } from './draw-growth';
import type { History } from './draw-history';

const DAYS_PER_YEAR = 365;
const SENSORS_THAT_FAIL: Sensor[] = [...TEMPERATURE_SENSORS, 'hotFlow', 'coldFlow'];

/** Of each kind one a year or so, each lasting days (own choice: a plant whose instruments are looked after). */
const STRETCHES = [
  { kind: 'frozen', perYear: 1.5, days: [0.5, 4] },
  { kind: 'missing', perYear: 1, days: [1, 6] },
  { kind: 'gap', perYear: 1, days: [1, 8] },
  { kind: 'out-of-service', perYear: 1, days: [1, 12] },
] as const;

type FaultDraw = {
  history: History;
  /** Length of the record. */
  days: number;
  /** Drift of a thermometer over each cycle, from the least to the most [K]; null: none drifts. */
  drift: [number, number] | null;
};

/** Spikes, frozen and dead sensors, gaps, outages, and where asked drifting thermometers. */
export function drawFaults(random: Random, { history, days, drift }: FaultDraw): FaultPlan[] {
  const faults: FaultPlan[] = [spikes(random, oneOf(random, TEMPERATURE_SENSORS), days)];
  if (random.uniform() < 0.5) faults.push(spikes(random, oneOf(random, ['hotFlow', 'coldFlow']), days));
  for (const { kind, perYear, days: lasting } of STRETCHES) {
    const count = Math.floor((perYear * days) / DAYS_PER_YEAR + random.uniform());
    for (let i = 0; i < count; i++) {
      const fromDaysAgo = between(random, 0, days);
      const span = {
        fromDaysAgo,
        toDaysAgo: Math.max(0, fromDaysAgo - between(random, lasting[0], lasting[1])),
      };
      const sensor = oneOf(random, SENSORS_THAT_FAIL);
      if (kind === 'frozen' || kind === 'missing') faults.push({ kind: 'dead', sensor, as: kind, ...span });
      else faults.push({ kind, ...span });
    }
  }
  return drift === null ? faults : [...faults, ...drifts(random, { history, days, drift })];
}

function spikes(random: Random, sensor: Sensor, days: number): FaultPlan {
  const size =
    sensor === 'hotFlow' || sensor === 'coldFlow' ? between(random, 0.3, 1) : between(random, 3, 20);
  return {
    kind: 'spikes',
    sensor,
    perMonth: between(random, 0.5, 4),
    size,
    fromDaysAgo: days,
    toDaysAgo: 0,
  };
}

/** One thermometer or two drift through each cycle and are set right while the unit stands open. */
function drifts(random: Random, { history, days, drift }: FaultDraw): FaultPlan[] {
  const drifting = new Set([oneOf(random, TEMPERATURE_SENSORS)]);
  if (random.uniform() < 0.4) drifting.add(oneOf(random, TEMPERATURE_SENSORS));
  return history.cycles.flatMap(({ startDays, endDays }) =>
    [...drifting].map((sensor): FaultPlan => {
      const change = between(random, ...drift!) * (random.uniform() < 0.5 ? -1 : 1);
      return {
        kind: 'drift',
        sensor,
        perDay: change / (endDays - startDays),
        fromDaysAgo: days - startDays,
        toDaysAgo: Math.max(0, days - endDays),
      };
    }),
  );
}
