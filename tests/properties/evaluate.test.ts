import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type EvaluatedReading, evaluatedReadingSchema } from '@/lib/contract/readings';
import { evaluate } from '@/lib/work/evaluate';
import { evaluateDocuments, inUsUnits } from '../support/evaluate-documents';

const SEED = 20261125;
const READINGS = 20;
const DOCUMENTS = { seed: SEED, numRuns: 2000 };
const TIMEOUT_MS = 300_000;
const answers = evaluatedReadingSchema.strict().array();

/** These say by null that a side was not measured, which is no reason to leave a reading out. */
const MAY_BE_NULL = new Set(['hotDuty', 'coldDuty', 'balance']);

/** Largest relative difference between a case stated in SI and the same in US units. */
const SAME = 1e-9;
/** Uncertainties rest on difference quotients, which keep half the digits of a double. */
const SAME_UNCERTAINTY = 1e-6;

/** Every figure of a reading, null where it has none; times, reasons and the like left out. */
function figuresOf({ uncertainty, ...rest }: EvaluatedReading): [name: string, value: number | null][] {
  const named = Object.entries(uncertainty).map(([name, value]) => [`u(${name})`, value] as const);
  return [...Object.entries(rest), ...named].filter(
    (entry): entry is [string, number | null] => typeof entry[1] === 'number' || entry[1] === null,
  );
}

/** Differences of large figures are compared on the scale of what they are differences of. */
function scaleOf(name: string, { U, duty }: EvaluatedReading): number {
  if (name === 'foulingResistance') return 1 / U!;
  if (name === 'lostDuty') return duty!;
  return name === 'balance' ? 1 : 0;
}

function expectSame(one: EvaluatedReading, other: EvaluatedReading): void {
  const others = new Map(figuresOf(other));
  for (const [name, value] of figuresOf(one)) {
    const same = others.get(name);
    if (value === null) {
      expect([name, MAY_BE_NULL.has(name), same]).toEqual([name, true, null]);
      continue;
    }
    const difference = Math.abs(same! - value) / Math.max(Math.abs(value), scaleOf(name, one));
    const most = name.startsWith('u(') ? SAME_UNCERTAINTY : SAME;
    // One comparison, not one `expect` per figure: there are two million of them.
    if (!(difference <= most)) expect([name, value]).toEqual([name, same]);
  }
}

describe(`evaluate, on 2,000 random units of 20 readings each (seed ${SEED})`, () => {
  it(
    'answers within its contract, with every figure of an accepted reading, and the same in US units',
    () => {
      let accepted = 0;
      let left = 0;
      fc.assert(
        fc.property(evaluateDocuments(READINGS), (document) => {
          const evaluated = evaluate(document);
          // NaN and Infinity become null in JSON: what comes back must be what went in.
          expect(answers.parse(JSON.parse(JSON.stringify(evaluated)))).toEqual(evaluated);
          expect(evaluated.map(({ time }) => time)).toEqual(document.readings.map(({ time }) => time));
          const inUs = evaluate(inUsUnits(document));
          evaluated.forEach((one, i) => {
            const other = inUs[i]!;
            expect([one.accepted, other.accepted]).toEqual([
              one.reasons.length === 0,
              one.reasons.length === 0,
            ]);
            expect(other.reasons).toEqual(one.reasons);
            if (one.accepted) expectSame(one, other);
            if (one.accepted) accepted++;
            else left++;
          });
        }),
        DOCUMENTS,
      );
      // Else the generator, not the evaluation, would have been tested.
      expect(accepted).toBeGreaterThan(25_000);
      expect(left).toBeGreaterThan(5_000);
    },
    TIMEOUT_MS,
  );
});
