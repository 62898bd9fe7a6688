import { describe, expect, it } from 'vitest';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { type CheckSettings, DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { REASON_BIT } from '@/lib/core/checks/reasons';
import { STEADY_REACH_MS, unsteady } from '@/lib/core/checks/unsteady';
import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { unitModel } from '@/lib/core/fouling/unit-model';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { makeRandom } from '@/lib/core/stats/random';
import { demoPlans, demoSpan, lastHour } from '@/seed/demo-plan';
import { generateReadings } from '@/seed/generate/generate-readings';
import type { UnitPlan } from '@/seed/generate/unit-plan';
import { makeWander } from '@/seed/generate/wander';
import { HOUR_MS, readingsOf, solveForward, waterUnit, withNoise } from '../../support/forward-readings';

const unit = waterUnit();
const MINUTE_MS = 60_000;
const SECOND_MS = 1000;

/** Flags of readings without anything else wrong; `settings` beside the defaults. */
function flags(readings: ReadingColumns, settings: Partial<CheckSettings> = {}, nominal = 0): Uint8Array {
  return unsteady(unitModel(unit, { ...DEFAULT_CHECK_SETTINGS, ...settings }), {
    time: readings.time,
    columns: BALANCE_SENSORS.map((sensor) => readings[sensor]),
    rows: Int32Array.from(readings.time, (_, i) => i),
    nominal,
  });
}
const share = (flagged: Uint8Array) => flagged.reduce((sum, flag) => sum + flag, 0) / flagged.length;
const at = (flagged: Uint8Array) => [...flagged.keys()].filter((i) => flagged[i] === 1);

/** A plant whose conditions wander over hours, logged every `stepMs`, with the sensors' random errors. */
function wandering(stepMs: number, count: number, seed: number, resolution = 0): ReadingColumns {
  const random = makeRandom(seed);
  const [a, b, c, d] = [6, 10, 16, 24].map((hours) => makeWander(random, stepMs, hours * HOUR_MS));
  const states = Array.from({ length: count }, () =>
    solveForward(unit, {
      hotIn: 80 + a!(),
      coldIn: 20 + b!(),
      hotFlow: 20 * (1 + 0.04 * c!()),
      coldFlow: 25 * (1 + 0.04 * d!()),
      fouling: 5e-5,
    }),
  );
  return withNoise(readingsOf(states, stepMs), unit, seed, resolution);
}

describe('a process that wanders as plants do is steady: at most 1 in 1000 readings marked', () => {
  for (const [name, stepMs, count] of [
    ['hourly', HOUR_MS, 2000],
    ['quarter-hourly', 15 * MINUTE_MS, 2000],
    ['every ten minutes', 10 * MINUTE_MS, 2000],
    ['every minute', MINUTE_MS, 2000],
    ['every five seconds', 5 * SECOND_MS, 2000],
  ] as const) {
    for (const resolution of [0, 0.5]) {
      it(`${name}, resolution ${resolution}`, () => {
        expect(share(flags(wandering(stepMs, count, 91, resolution)))).toBeLessThanOrEqual(0.001);
      });
    }
  }

  it('noise about a level is no movement, however wide: flow meters that scatter four times as much as stated', () => {
    const readings = wandering(MINUTE_MS, 3000, 92);
    const random = makeRandom(93);
    readings.hotFlow.forEach((value, i) => {
      readings.hotFlow[i] = value * (1 + 0.08 * random.normal());
    });
    expect(share(flags(readings))).toBeLessThan(0.02);
  });
});

describe('the demonstration', () => {
  const end = lastHour(Date.parse('2026-11-25T08:30:00Z'));
  /** Sound readings of the last thirty days that unsteadiness alone leaves out, and all sound ones. */
  const loss = (plan: UnitPlan, index: number) => {
    const span = { ...demoSpan(end, index), start: end - 30 * 24 * HOUR_MS };
    const { readings, truth } = generateReadings(plan, span);
    const settings = toCheckSettings(plan.unit);
    const { reasons } = evaluateReadings({ exchanger: toExchanger(plan.unit), settings, readings });
    const sound = [...reasons.keys()].filter(
      (i) => truth.planted[i] === 0 && (reasons[i]! & ~REASON_BIT['not-steady']) === 0,
    );
    const lost = sound.filter((i) => reasons[i] !== 0);
    return {
      sound: sound.length,
      lost: lost.length,
      started: lost.filter((i) => truth.isRunning[i - 1] === 0).length,
    };
  };

  it('loses at most 2 % of its sound readings, all but 1 in 1000 of them the first after a start', () => {
    const losses = demoPlans().map(loss);
    const sum = (name: keyof (typeof losses)[0]) => losses.reduce((total, each) => total + each[name], 0);
    expect(sum('sound')).toBeGreaterThan(20_000);
    expect(sum('lost') / sum('sound')).toBeLessThan(0.02);
    expect((sum('lost') - sum('started')) / sum('sound')).toBeLessThan(0.001);
  });
});

/** A steady plant whose flows rise by a share at once at reading `from`; the outlets settle by three time constants. */
function stepped(stepMs: number, { rise, from, count }: { rise: number; from: number; count: number }) {
  const before = { hotIn: 80, coldIn: 20, hotFlow: 18, coldFlow: 22, fouling: 5e-5 };
  const after = { ...before, hotFlow: before.hotFlow * (1 + rise), coldFlow: before.coldFlow * (1 + rise) };
  const [old, settled] = [solveForward(unit, before), solveForward(unit, after)];
  const states = Array.from({ length: count }, (_, i) => {
    if (i < from) return old;
    const left = Math.exp((-3 * (i - from) * stepMs) / (10 * MINUTE_MS));
    const hotOut = settled.hotOut + left * (old.hotOut - settled.hotOut);
    return { ...settled, hotOut, coldOut: settled.coldOut + left * (old.coldOut - settled.coldOut) };
  });
  return withNoise(readingsOf(states, stepMs), unit, 94);
}

describe('a load step is caught', () => {
  for (const rise of [0.5, -0.4]) {
    it(`hourly, of ${100 * rise} %: in the reading after it, and in no other`, () => {
      expect(at(flags(stepped(HOUR_MS, { rise, from: 100, count: 200 })))).toEqual([100]);
    });
  }

  it('every minute, of 25 %: from its first reading until the unit has settled, and not an hour later', () => {
    const flagged = flags(stepped(MINUTE_MS, { rise: 0.25, from: 300, count: 600 }));
    expect(share(flagged.subarray(300, 309))).toBe(1);
    expect(share(flagged.subarray(0, 300))).toBeLessThan(0.005);
    expect(share(flagged.subarray(360))).toBeLessThan(0.005);
  });

  it('every second, of 25 %: from its first minute until the unit has settled', () => {
    const flagged = flags(stepped(SECOND_MS, { rise: 0.25, from: 3000, count: 6000 }));
    expect(share(flagged.subarray(3060, 3540))).toBe(1);
    expect(share(flagged.subarray(0, 2940))).toBeLessThan(0.005);
    expect(share(flagged.subarray(4800))).toBeLessThan(0.005);
  });

  it('and a start after a standstill is one', () => {
    const readings = stepped(HOUR_MS, { rise: 0, from: 0, count: 100 });
    for (const sensor of ['hotFlow', 'coldFlow'] as const) readings[sensor].fill(0, 40, 60);
    expect(at(flags(readings)).filter((i) => i < 40 || i >= 60)).toEqual([60]);
  });

  it('a ramp is unsteady from end to end', () => {
    const readings = stepped(15 * MINUTE_MS, { rise: 0, from: 0, count: 100 });
    for (const sensor of ['hotIn', 'hotOut'] as const) {
      for (let i = 40; i < 100; i++) readings[sensor][i]! += 4.5 * Math.min(10, i - 39);
    }
    expect(at(flags(readings))).toEqual(Array.from({ length: 10 }, (_, k) => 40 + k));
  });
});

describe('settings of the unit', () => {
  const readings = stepped(HOUR_MS, { rise: 0.5, from: 100, count: 200 });

  it('a settling time of 0 judges nothing', () => {
    expect(share(flags(readings, { settlingMinutes: 0 }))).toBe(0);
  });

  it('a unit that settles in two minutes has settled by the next hourly reading, one in half an hour has not from less', () => {
    expect(at(flags(readings, { settlingMinutes: 2 }))).toEqual([]);
    const small = stepped(HOUR_MS, { rise: 0.25, from: 100, count: 200 });
    expect(at(flags(small))).toEqual([]);
    expect(at(flags(small, { settlingMinutes: 30 }))).toContain(100);
  });

  it('a higher multiple lets more pass', () => {
    expect(at(flags(readings, { steadyMultiple: 12 }))).toEqual([]);
  });

  it('a nominal value that somebody retyped is no movement', () => {
    const typed = stepped(HOUR_MS, { rise: 0, from: 0, count: 200 });
    typed.hotFlow.fill(10, 0, 100).fill(20, 100);
    expect(at(flags(typed, {}, 1 << 4))).toEqual([]);
    expect(at(flags(typed))).toEqual([100]);
  });
});

describe('what stands beside it', () => {
  it('a spike or a value out of range moves nothing but itself', () => {
    const readings = stepped(HOUR_MS, { rise: 0, from: 0, count: 200 });
    readings.hotOut[50]! += 25;
    readings.coldIn[100] = 9000;
    const { reasons } = evaluateReadings({ exchanger: unit, settings: DEFAULT_CHECK_SETTINGS, readings });
    expect([...reasons.keys()].filter((i) => reasons[i] !== 0)).toEqual([50, 100]);
    expect(reasons[50]! & REASON_BIT.spike).not.toBe(0);
  });

  for (const [name, stepMs] of [
    ['hourly', HOUR_MS],
    ['every minute', MINUTE_MS],
  ] as const) {
    it(`a reading's effect ends within a day, ${name}`, () => {
      const count = Math.ceil((4 * 24 * HOUR_MS) / stepMs);
      const base = wandering(stepMs, count, 95);
      const before = flags(base, { settlingMinutes: 120, steadyMultiple: 1 });
      const random = makeRandom(96);
      for (let trial = 0; trial < 12; trial++) {
        const changed = { ...base, hotIn: base.hotIn.slice(), coldFlow: base.coldFlow.slice() };
        const i = Math.floor(random.uniform() * count);
        changed.hotIn[i] = trial % 3 === 0 ? Number.NaN : changed.hotIn[i]! + 20 * random.normal();
        changed.coldFlow[i]! *= 1.4;
        const after = flags(changed, { settlingMinutes: 120, steadyMultiple: 1 });
        const differing = [...after.keys()].filter((j) => after[j] !== before[j]);
        for (const j of differing)
          expect(Math.abs(base.time[j]! - base.time[i]!)).toBeLessThanOrEqual(STEADY_REACH_MS);
      }
    });
  }

  it('nothing is claimed of a single reading, nor of none', () => {
    expect(flags(wandering(HOUR_MS, 1, 97))).toEqual(new Uint8Array(1));
    expect(flags(wandering(HOUR_MS, 0, 97))).toEqual(new Uint8Array(0));
  });
});
