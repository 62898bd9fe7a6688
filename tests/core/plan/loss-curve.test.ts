import { describe, expect, it } from 'vitest';
import { makeIntegral, moneyLost, priceSpans } from '../../../lib/core/plan/loss-curve';

const curve = { ages: [0, 10, 30], values: [0, 100, 500] };

describe('money lost between two cleanings', () => {
  it('is the area under the curve times the price, the last value held (by hand)', () => {
    const integral = makeIntegral(curve.ages, curve.values);
    // Triangle 10·100/2, trapezium 20·(100 + 500)/2, and 5 days at 500.
    expect(integral(10)).toBeCloseTo(500, 12);
    expect(integral(30)).toBeCloseTo(6500, 12);
    expect(integral(35)).toBeCloseTo(9000, 12);
    // From age 10 the rate rises by 20 a day: 100·5 + 20·5²/2.
    expect(integral(15) - integral(10)).toBeCloseTo(750, 12);
  });

  it('takes each day at its price, and counts nothing before the first price or while the plant is out', () => {
    const spans = priceSpans({
      from: 0,
      to: 40,
      heatRates: [
        { fromDay: 5, perJoule: 1 },
        { fromDay: 20, perJoule: 3 },
      ],
      pumpingRates: [],
      outages: [{ from: 10, to: 12 }],
    });
    const lostDuty = makeIntegral([0], [2]);
    const pumping = makeIntegral([0], [7]);
    const days = moneyLost({ lostDuty, pumping }, spans, { born: 0, from: 0, until: [5, 11, 20, 21] });
    // 2 W: none to day 5; days 5–10; 8 more to day 20; one at three times the price.
    expect([...days].map((money) => money / 86_400)).toEqual([0, 10, 26, 32]);
  });

  it('agrees with a sum over small steps', () => {
    const spans = priceSpans({
      from: 0,
      to: 60,
      heatRates: [
        { fromDay: 0, perJoule: 2 },
        { fromDay: 17, perJoule: 5 },
      ],
      pumpingRates: [{ fromDay: 9, perJoule: 4 }],
      outages: [{ from: 22.5, to: 30 }],
    });
    const duty = (age: number) => (age < 10 ? 10 * age : age < 30 ? 100 + 20 * (age - 10) : 500);
    const lostDuty = makeIntegral(curve.ages, curve.values);
    const pumping = makeIntegral([0, 100], [0, 300]);
    const [money] = moneyLost({ lostDuty, pumping }, spans, { born: -3, from: 4, until: [50] });
    let sum = 0;
    const step = 1 / 512;
    for (let day = 4 + step / 2; day < 50; day += step) {
      if (day >= 22.5 && day < 30) continue;
      sum += duty(day + 3) * (day < 17 ? 2 : 5) * step + (day < 9 ? 0 : 3 * (day + 3) * 4) * step;
    }
    expect(money! / 86_400 / sum).toBeCloseTo(1, 6);
  });
});
