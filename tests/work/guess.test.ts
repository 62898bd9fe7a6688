import { describe, expect, it } from 'vitest';
import { SURE } from '@/lib/contract/column-guess';
import { guessColumns } from '@/lib/ingest/guess/guess-columns';
import { sensorUnit } from '@/lib/ingest/sensor-unit';
import { makePlant, type Plant, type Truth, targetsOf } from './guess-plants';
import { HELD_OUT_SCHEMES, KNOWN_SCHEMES } from './guess-schemes';

const SEEDS = [11, 12, 13, 14];
/** Share of the sure guesses that may be wrong [-]. */
const MOST_WRONG = 0.01;

type Score = {
  sensors: number;
  found: number;
  guessed: number;
  wrong: number;
  sure: number;
  sureWrong: number;
  examples: string[];
};

function score(plants: Plant[]): Score {
  const total: Score = { sensors: 0, found: 0, guessed: 0, wrong: 0, sure: 0, sureWrong: 0, examples: [] };
  for (const plant of plants) {
    const { titles, columns } = plant;
    const guesses = guessColumns({ titles, columns, units: targetsOf(plant), taken: [] });
    for (const [i, truth] of plant.truth.entries()) {
      const guess = guesses[i] ?? null;
      if (truth !== null) total.sensors++;
      if (guess === null) continue;
      const isRight = truth !== null && isSame(guess, truth);
      total.guessed++;
      if (isRight) total.found++;
      else total.wrong++;
      if (guess.confidence < SURE) continue;
      total.sure++;
      if (isRight) continue;
      total.sureWrong++;
      total.examples.push(
        `${columns[i]!.name} is ${truth === null ? 'nothing' : truth.sensor}: ${JSON.stringify(guess)}`,
      );
    }
  }
  return total;
}

/** The same sensor, in a unit of measure that is the same size. */
function isSame(guess: { tag: string; sensor: string; unit: string }, truth: NonNullable<Truth>): boolean {
  if (guess.tag !== truth.tag || guess.sensor !== truth.sensor) return false;
  const [a, b] = [sensorUnit(truth.sensor, guess.unit), sensorUnit(truth.sensor, truth.unit)];
  return a !== null && b !== null && Math.abs(a.factor / b.factor - 1) < 1e-9 && a.offset === b.offset;
}

function inWords(name: string, { sensors, found, guessed, wrong, sure, sureWrong }: Score): string {
  const share = (part: number, of: number) => (of === 0 ? '–' : `${((100 * part) / of).toFixed(1)} %`);
  return (
    `${name}: ${sensors} sensors; guessed ${guessed}, precision ${share(guessed - wrong, guessed)}, ` +
    `recall ${share(found, sensors)}; sure ${sure} (recall ${share(sure - sureWrong, sensors)}), wrong among the sure ${share(sureWrong, sure)}`
  );
}

describe.each([
  ['schemes the guess was made with', KNOWN_SCHEMES, { recall: 0.95, sureRecall: 0.6 }],
  ['schemes held out', HELD_OUT_SCHEMES, { recall: 0.75, sureRecall: 0.45 }],
] as const)('guesses for generated plants, %s', (title, schemes, floors) => {
  const plants = (scheme: (typeof schemes)[number]) => SEEDS.map((seed) => makePlant(scheme, seed));

  it.each(schemes.map((scheme) => [scheme.name, scheme] as const))('%s', (name, scheme) => {
    const result = score(plants(scheme));
    console.log(inWords(name, result));
    expect(result.sensors).toBeGreaterThan(150);
    expect(result.examples.slice(0, 5)).toEqual([]);
  });

  it('are seldom wrong where they are sure, and find most', () => {
    const result = score(schemes.flatMap(plants));
    console.log(inWords(`ALL ${title}`, result));
    expect(result.sureWrong / result.sure).toBeLessThan(MOST_WRONG);
    expect(result.found / result.sensors).toBeGreaterThan(floors.recall);
    expect((result.sure - result.sureWrong) / result.sensors).toBeGreaterThan(floors.sureRecall);
  });
});
