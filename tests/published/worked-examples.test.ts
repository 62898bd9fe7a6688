import { readFileSync } from 'node:fs';
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
import { counter, type Inputs } from '../support/rating-steps';
import { COMPUTED } from '../support/worked-ratings';

type Example = {
  id: string;
  inputs: Inputs;
  answers: { name: string; printed: number; tolerance: number }[];
};

/** Book and example number stand beside each case of the file. */
const { cases } = JSON.parse(readFileSync(new URL('data/worked-examples.json', import.meta.url), 'utf8')) as {
  cases: Example[];
};

/** Examples and answers of fouling, film coefficients and money: not of heat exchange. */
const ELSEWHERE: Record<string, string[] | 'all'> = {
  'holman-10.3': 'all',
  'sukhatme-7.1': 'all',
  'cengel-11.2': 'all',
  'resistances-in-series': 'all',
  'incropera-11.5': ['Re', 'h inside'],
  'incropera-problem-11.24': ['fouling resistance'],
  'kern-7.3': ['Rd'],
  'cengel-11.10': ['energy', 'fuel', 'money'],
};

const answers = cases.flatMap(({ id, inputs, answers: list }) =>
  list
    .filter(({ name }) => ELSEWHERE[id] !== 'all' && !ELSEWHERE[id]?.includes(name))
    .map((answer) => ({ id, inputs, ...answer })),
);

describe('worked examples of textbooks', () => {
  it('are computed, every one that is of heat exchange', () => {
    const expected = cases.map(({ id }) => id).filter((id) => ELSEWHERE[id] !== 'all');
    expect(Object.keys(COMPUTED).sort()).toEqual(expected.sort());
    expect(answers.length).toBe(104);
  });

  it.each(answers)('$id: $name is $printed ± $tolerance', ({ id, inputs, name, printed, tolerance }) => {
    const computed = COMPUTED[id]!(inputs)[name]!;
    expect(Math.abs(computed - printed)).toBeLessThanOrEqual(tolerance);
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
