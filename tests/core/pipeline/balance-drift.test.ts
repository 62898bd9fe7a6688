import { describe, expect, it } from 'vitest';
import { balanceDrift } from '@/lib/core/pipeline/balance-drift';
import { makeDailyColumns } from '@/lib/core/series/daily-columns';
import { makeRandom, type Random } from '@/lib/core/stats/random';
import { makeWander } from '@/seed/generate/wander';

const FIRST_DAY = 20_000;

/** Balances of consecutive days, NaN where a day has none, judged on the last of them. */
function judge(balances: Float64Array) {
  const daily = makeDailyColumns(balances.length);
  daily.day.set(balances.map((_, row) => FIRST_DAY + row));
  daily.balance.set(balances);
  return balanceDrift(daily, FIRST_DAY + balances.length - 1);
}

/** First-order autoregressive noise: correlation r from one day to the next. */
function noise(random: Random, days: number, { r, deviation }: { r: number; deviation: number }) {
  const next = makeWander(random, 1, -1 / Math.log(r));
  return Float64Array.from({ length: days }, () => deviation * next());
}

/** Share of random records in which something is claimed, or what `counts` asks for. */
function share(trials: number, claim: (trial: number) => boolean): number {
  let count = 0;
  for (let trial = 0; trial < trials; trial++) if (claim(trial)) count++;
  return count / trials;
}

describe('a steady balance is called changed', () => {
  const random = makeRandom(71);
  for (const days of [60, 90, 180]) {
    for (const r of [0, 0.3, 0.6, 0.8]) {
      it(`in at most 1 % of records of ${days} days, autocorrelation ${r} from day to day, one day in ten missing`, () => {
        const claimed = share(1000, () => {
          const balances = noise(random, days, { r, deviation: 0.01 });
          return judge(balances.map((value) => (random.uniform() < 0.1 ? Number.NaN : value))) !== null;
        });
        // Of 1000 records with a true rate of 0.5 %, more than 10 would be a 1 in 70 chance.
        expect(claimed).toBeLessThanOrEqual(0.01);
      });
    }
  }

  it('in at most 1 of 10 unit-years in which it is judged every third day', () => {
    const claimed = share(40, () => {
      const year = noise(random, 545, { r: 0.6, deviation: 0.01 });
      return Array.from({ length: 122 }, (_, k) => 180 + 3 * k).some(
        (end) => judge(year.slice(0, end)) !== null,
      );
    });
    expect(claimed).toBeLessThanOrEqual(0.1);
  });

  it('never for single wild days, nor for one bad week', () => {
    const balances = noise(random, 180, { r: 0.3, deviation: 0.002 });
    balances[40] = 0.3;
    balances[170] = -0.2;
    for (let day = 100; day < 106; day++) balances[day] = 0.05;
    expect(judge(balances)).toBeNull();
  });

  it('never for a change below half a per cent, however clear', () => {
    const balances = noise(random, 180, { r: 0, deviation: 1e-4 });
    expect(judge(balances.map((value, day) => value + (day >= 90 ? 0.004 : 0)))).toBeNull();
    expect(judge(balances.map((value, day) => value + (day >= 90 ? 0.006 : 0)))).not.toBeNull();
  });
});

/**
 * A thermometer that drifts evenly for the last 90 of 180 days, on a unit whose stream changes by 30 K: the balance moves
 * by the drift over the change. Daily medians of hourly readings of 1 % flow meters scatter by some 0.3 %.
 */
function drifted(random: Random, kelvin: number): Float64Array {
  const balances = noise(random, 180, { r: 0.3, deviation: 0.003 });
  return balances.map((value, day) => value + ((kelvin / 30) * Math.max(0, day - 90)) / 90);
}

describe('a thermometer that drifts over three months', () => {
  for (const [kelvin, least] of [
    [0.2, 0.65],
    [0.35, 0.95],
    [0.5, 0.99],
  ] as const) {
    it(`by ${kelvin} K is found in more than ${100 * least} % of records`, () => {
      const random = makeRandom(72);
      expect(share(200, () => judge(drifted(random, kelvin)) !== null)).toBeGreaterThan(least);
    });
  }

  it('by 0.5 K is dated to within two weeks, its size within three of its uncertainties, in 95 % of records', () => {
    const random = makeRandom(73);
    const right = share(200, () => {
      const found = judge(drifted(random, 0.5));
      if (found === null || found.kind !== 'drift') return false;
      const isDated = Math.abs(found.sinceDay - (FIRST_DAY + 90)) <= 14;
      const isSized = Math.abs(found.change - 0.5 / 30) <= 3 * found.changeUncertainty;
      const days = FIRST_DAY + 179 - found.sinceDay;
      expect(found.perMonth! * days).toBeCloseTo(30 * found.change, 10);
      return isDated && isSized;
    });
    expect(right).toBeGreaterThanOrEqual(0.95);
  });

  it('and was put right two weeks ago is suspect no longer', () => {
    const balances = drifted(makeRandom(74), 0.5).map((value, day) => (day >= 160 ? value - 0.0167 : value));
    expect(judge(balances)).toBeNull();
  });
});

describe('a balance that shifts', () => {
  it('is a shift since its first day, without a rate', () => {
    const random = makeRandom(75);
    const balances = noise(random, 180, { r: 0.3, deviation: 0.003 }).map((value, day) =>
      day >= 120 ? value - 0.02 : value,
    );
    const found = judge(balances)!;
    expect(found.kind).toBe('shift');
    expect(found.sinceDay).toBe(FIRST_DAY + 120);
    expect(Math.abs(found.change + 0.02)).toBeLessThan(3 * found.changeUncertainty);
    expect(found.perMonth).toBeNull();
    expect(found.perMonthUncertainty).toBeNull();
  });
});

describe('what cannot be judged', () => {
  const slope = (days: number) => Float64Array.from({ length: days }, (_, day) => 0.001 * day);

  it('is a record of fewer than 60 days with a balance', () => {
    expect(judge(slope(59))).toBeNull();
    expect(judge(slope(60))).not.toBeNull();
    expect(
      judge(
        slope(120)
          .map((value, day) => (day % 2 === 0 ? value : Number.NaN))
          .slice(2),
      ),
    ).toBeNull();
  });

  it('nor a unit without a balance check, or days after today', () => {
    expect(judge(new Float64Array(180).fill(Number.NaN))).toBeNull();
    const daily = makeDailyColumns(180);
    daily.day.set(slope(180).map((_, row) => FIRST_DAY + row));
    daily.balance.set(slope(180));
    expect(balanceDrift(daily, FIRST_DAY + 40)).toBeNull();
  });

  it('a constant balance has not changed', () => {
    expect(judge(new Float64Array(180).fill(0.03))).toBeNull();
  });
});
