import { describe, expect, it } from 'vitest';
import { balanceError, streamDuty } from '@/lib/core/exchange/duty';
import { counterCurrentLmtd } from '@/lib/core/exchange/lmtd';
import {
  capacityRatio,
  conductanceFromDuty,
  conductanceFromMeanDifference,
  outletDuty,
} from '@/lib/core/exchange/rating';
import { numberOfTransferUnits } from '@/lib/core/exchange/transfer-units';
import { counter } from '../support/rating-steps';
import { testChecks } from '../support/table-test';
import { COMPUTED, examples, LEFT_OUT, workedExampleChecks } from './checks/worked-examples';

describe('worked examples of textbooks', () => {
  testChecks(workedExampleChecks());

  it('are computed, every answer that is not left out by name', () => {
    const answers = examples.flatMap(({ id, answers: list }) => list.map(({ name }) => `${id}: ${name}`));
    const leftOut = Object.entries(LEFT_OUT).flatMap(([id, names]) =>
      Object.keys(names).map((name) => `${id}: ${name}`),
    );
    expect(Object.keys(COMPUTED).sort()).toEqual(examples.map(({ id }) => id).sort());
    expect([...workedExampleChecks().map(({ id }) => id), ...leftOut].sort()).toEqual(answers.sort());
  });
});

describe('the same temperatures taken as °C and as °F: 50 to 40 against 30 to 40, equal capacity rates (common practice)', () => {
  it.each([
    ['°C', (t: number) => t, 1],
    ['°F', (t: number) => (t - 32) / 1.8, 1.8],
  ])(
    'balance 0, LMTD 10 degrees, effectiveness 0.5, one transfer unit: %s',
    (_, toCelsius, degreesPerKelvin) => {
      const [hotIn, hotOut, coldIn, coldOut] = [50, 40, 30, 40].map(toCelsius) as [
        number,
        number,
        number,
        number,
      ];
      const rate = 1234.5;
      const hotDuty = streamDuty(1, rate * (hotIn - hotOut));
      const coldDuty = streamDuty(1, rate * (coldOut - coldIn));
      expect(balanceError(hotDuty, coldDuty)).toBeCloseTo(0, 14);
      expect(counterCurrentLmtd({ hotIn, hotOut, coldIn, coldOut }) * degreesPerKelvin).toBeCloseTo(10, 13);
      const inlets = { arrangement: counter, hotCapacityRate: rate, coldCapacityRate: rate, hotIn, coldIn };
      const reached = hotDuty / rate / (hotIn - coldIn);
      expect(reached).toBeCloseTo(0.5, 14);
      expect(numberOfTransferUnits(counter, reached, capacityRatio(rate, rate), 'hot')).toBeCloseTo(1, 13);
      expect(conductanceFromDuty({ ...inlets, duty: hotDuty }) / rate).toBeCloseTo(1, 13);
      expect(conductanceFromMeanDifference(hotDuty, 10 / degreesPerKelvin) / rate).toBeCloseTo(1, 13);
      expect(outletDuty({ ...inlets, conductance: rate })).toBeCloseTo(hotDuty, 9);
    },
  );
});
