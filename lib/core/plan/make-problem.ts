import { cleaningOptions, crewPools, isOutAt, optionAt, type SlotSpace } from './cleaning-slots';
import { makeIntegral, moneyLost, priceSpans } from './loss-curve';
import type { Pace } from './pace';
import type { PlanInput, PlanUnitInput } from './plan-input';
import type { CleaningOption, PlanProblem, PlanUnit } from './plan-problem';

/**
 * The plan as a problem: every way to clean each unit, the money lost between any two cleanings, and how late the second of
 * them would be. A unit ages through outages too, but loses nothing while its plant is out; nor while it is being cleaned.
 *
 * @param input what the planner states and the fleet's results say
 * @returns problem with the units in the order of the input
 * @range  any; a locked cleaning on the day of an option is that option, another gets one of its own
 * @source Smaïli, Vassiliadis & Wilson, Energy & Fuels 15 (2001) 1038-1056 (cleaning against loss over a horizon)
 * @check  tests/core/plan/make-problem.test.ts
 */
export function makeProblem(input: PlanInput): PlanProblem {
  const space: SlotSpace = { input, pools: crewPools(input) };
  return joined(
    space,
    input.units.map((unit) => placeUnit(space, unit)),
  );
}

/**
 * The same, unit by unit, so that others have their turn between two of them.
 *
 * @param input what the planner states and the fleet's results say
 * @param pause asked before each unit
 * @returns problem with the units in the order of the input
 * @range  any
 * @source none: as `makeProblem`
 * @check  tests/core/plan/make-problem.test.ts
 */
export async function makeProblemInTurns(input: PlanInput, pause: Pace['pause']): Promise<PlanProblem> {
  const space: SlotSpace = { input, pools: crewPools(input) };
  const placed: PlacedUnit[] = [];
  for (const unit of input.units) {
    await pause();
    placed.push(placeUnit(space, unit));
  }
  return joined(space, placed);
}

type PlacedUnit = { unit: PlanUnit; isPlaced: boolean };

function joined({ input, pools }: SlotSpace, placed: readonly PlacedUnit[]): PlanProblem {
  return {
    from: input.from,
    to: input.to,
    pools: [...pools],
    units: placed.map(({ unit }) => unit),
    notTogether: pairsOf(input),
    unplaced: placed.flatMap(({ isPlaced }, index) => (isPlaced ? [] : [index])),
  };
}

function placeUnit(space: SlotSpace, unit: PlanUnitInput): PlacedUnit {
  const { options, locked, isPlaced } = withLocked(space, unit, cleaningOptions(space, unit));
  const shell: PlanUnit = {
    tag: unit.tag,
    options,
    losses: lossTable(space, unit, options),
    lateness: latenessTable(space.input, unit, options),
    locked,
    deadline: unit.deadline,
    life: unit.life,
    isOverdue: unit.isOverdue || (unit.deadline !== null && unit.deadline < space.input.from),
  };
  return { unit: shell, isPlaced };
}

function withLocked(
  space: SlotSpace,
  unit: PlanUnitInput,
  slots: CleaningOption[],
): { options: CleaningOption[]; locked: number[]; isPlaced: boolean } {
  const wanted = space.input.locked.filter(({ tag }) => tag === unit.tag);
  const kept: CleaningOption[] = [];
  let options = slots;
  let isPlaced = true;
  for (const { start } of wanted.toSorted((a, b) => a.start - b.start)) {
    const slot = nearestOnDay(options, start);
    const option = slot ?? optionAt(space, unit, start);
    const follows =
      option !== null && kept.every((other) => !kept.includes(option) && other.end <= option.start);
    if (!follows) {
      isPlaced = false;
      continue;
    }
    kept.push(option);
    if (slot === null) options = [...options, option].sort((a, b) => a.start - b.start);
  }
  return { options, locked: kept.map((option) => options.indexOf(option)), isPlaced };
}

function nearestOnDay(options: readonly CleaningOption[], start: number): CleaningOption | null {
  const sameDay = options.filter((option) => Math.floor(option.start) === Math.floor(start));
  const away = (option: CleaningOption) => Math.abs(option.start - start);
  return sameDay.toSorted((a, b) => away(a) - away(b))[0] ?? null;
}

/** Rows and columns as `PlanUnit` has them. */
function lossTable(
  { input }: SlotSpace,
  unit: PlanUnitInput,
  options: readonly CleaningOption[],
): Float64Array {
  const outages = input.outages.filter((outage) => isOutAt(outage, unit.site));
  const spans = priceSpans({ ...unit, from: input.from, to: input.to, outages });
  const over = (values: readonly number[]) => makeIntegral(unit.ages, values);
  const before = { lostDuty: over(unit.lostDuty), pumping: over(unit.pumping) };
  const after = { lostDuty: over(unit.lostDutyAfter), pumping: over(unit.pumpingAfter) };
  const until = [...options.map(({ start }) => start), input.to];
  return table(options, (end) =>
    end === null
      ? moneyLost(before, spans, { born: unit.asOf, from: input.from, until })
      : moneyLost(after, spans, { born: end, from: end, until }),
  );
}

function latenessTable(
  { from, to }: PlanInput,
  unit: PlanUnitInput,
  options: readonly CleaningOption[],
): Float64Array {
  const { deadline, life } = unit;
  const isOverdue = unit.isOverdue || (deadline !== null && deadline < from);
  const until = [...options.map(({ start }) => start), to];
  return table(options, (end) => {
    const after = end === null ? null : life === null ? null : end + life;
    const before = isOverdue ? from : deadline;
    const latest = end === null ? before : after;
    return Float64Array.from(until, (start) => (latest === null ? 0 : Math.max(0, start - latest)));
  });
}

function table(
  options: readonly CleaningOption[],
  rowAfter: (end: number | null) => Float64Array,
): Float64Array {
  const width = options.length + 1;
  const out = new Float64Array(width * width);
  for (let row = 0; row < width; row++) {
    const previous = row === 0 ? null : options[row - 1]!;
    const values = rowAfter(previous?.end ?? null);
    for (let column = 0; column < width; column++) {
      const follows =
        column === width - 1 ||
        previous === null ||
        (column >= row && options[column]!.start >= previous.end);
      out[row * width + column] = follows ? values[column]! : Number.NaN;
    }
  }
  return out;
}

function pairsOf({ units, notTogether }: PlanInput): [number, number][] {
  const pairs = new Map<string, [number, number]>();
  for (const group of notTogether) {
    const members = units.flatMap(({ tag }, index) => (group.includes(tag) ? [index] : []));
    members.forEach((a, i) => {
      for (const b of members.slice(i + 1)) pairs.set(`${a} ${b}`, [a, b]);
    });
  }
  return [...pairs.values()];
}
