import { parseArgs } from 'node:util';
import { SCENARIOS, type Scenario, SETS, type SetName, type UnitKey } from './ranges';

/** What is asked of one run of the bench. */
export type Options = {
  set: SetName;
  seed: number;
  scenarios: readonly Scenario[];
  /** Cycles to judge at least, over all the scenarios. */
  cycles: number;
  cache: string | null;
  /** Fill the cache and judge nothing. */
  simulateOnly: boolean;
  json: string | null;
};

/** How the cycles are shared out among the scenarios of a run. */
const WEIGHTS: Record<Scenario, number> = { usual: 10, hard: 4, unrecorded: 4, young: 2 };
/** Judged cycles of one unit on average. */
const CYCLES_PER_UNIT: Record<Scenario, number> = { usual: 6, hard: 6, unrecorded: 6, young: 1 };

export function readOptions(args: string[]): Options {
  const { values } = parseArgs({
    args,
    options: {
      set: { type: 'string', default: 'held-out' },
      seed: { type: 'string', default: '1' },
      scenario: { type: 'string', multiple: true, default: [...SCENARIOS] },
      cycles: { type: 'string', default: '2200' },
      cache: { type: 'string' },
      'simulate-only': { type: 'boolean', default: false },
      json: { type: 'string' },
    },
  });
  return {
    set: oneOf(SETS, values.set),
    seed: wholeNumber(values.seed),
    scenarios: values.scenario.map((name) => oneOf(SCENARIOS, name)),
    cycles: wholeNumber(values.cycles),
    cache: values.cache ?? null,
    simulateOnly: values['simulate-only'],
    json: values.json ?? null,
  };
}

/** The units of a run. */
export function unitKeys({ set, seed, scenarios, cycles }: Options): UnitKey[] {
  const total = scenarios.reduce((sum, scenario) => sum + WEIGHTS[scenario], 0);
  return scenarios.flatMap((scenario) => {
    const count = Math.ceil((cycles * WEIGHTS[scenario]) / total / CYCLES_PER_UNIT[scenario]);
    return Array.from({ length: count }, (_, index) => ({ set, scenario, seed, index }));
  });
}

function oneOf<T extends string>(known: readonly T[], value: string): T {
  const found = known.find((name) => name === value);
  if (found === undefined) throw new RangeError(`"${value}" is none of: ${known.join(', ')}`);
  return found;
}

function wholeNumber(text: string): number {
  const value = Number(text);
  if (!Number.isSafeInteger(value) || value < 1)
    throw new RangeError(`"${text}" is not a whole number from 1`);
  return value;
}
