import type { Fault } from '@/lib/contract/app-error';
import { isComplete, type MappingChoice } from './mapping-choices';

/** What is wrong at each column, by its name: what a person left out, what stands twice, what the server says of it. */
export function choiceProblems(
  choices: readonly MappingChoice[],
  { tags, faults }: { tags: ReadonlySet<string>; faults: readonly Fault[] },
): Map<string, string[]> {
  const problems = new Map<string, string[]>();
  const add = (name: string, problem: string) => problems.set(name, [...(problems.get(name) ?? []), problem]);
  const holders = new Map<string, string>();
  for (const choice of choices) {
    if (choice.isSkipped) continue;
    const { name, tag, sensor } = choice;
    const isBegun = tag.trim() !== '' || sensor !== '';
    if (isBegun && !isComplete(choice)) add(name, `needs ${missingIn(choice)}; until then it is skipped`);
    if (tag.trim() !== '' && !tags.has(tag.trim())) add(name, `there is no unit "${tag.trim()}"`);
    if (!isComplete(choice)) continue;
    const key = `${sensor} ${tag.trim()}`;
    const holder = holders.get(key);
    if (holder === undefined) holders.set(key, name);
    else add(name, `"${holder}" is this sensor of ${tag.trim()} already; keep one of them`);
  }
  const names = new Map(choices.map(({ name }) => [name.trim(), name]));
  for (const { field, message } of faults) {
    const name = names.get(field);
    // A column nobody has explained yet is the very task; saying so at each would say nothing.
    if (name !== undefined && !/is not in the mapping/.test(message)) add(name, message);
  }
  return problems;
}

function missingIn({ tag, sensor, unit }: MappingChoice): string {
  const missing = [
    tag.trim() === '' ? 'the unit' : '',
    sensor === '' ? 'the quantity' : '',
    unit.trim() === '' ? 'the unit of measure' : '',
  ];
  return missing.filter((part) => part !== '').join(' and ');
}

/** Faults that no listed column shows. */
export function faultsElsewhere(
  faults: readonly Fault[],
  choices: readonly Pick<MappingChoice, 'name'>[],
): Fault[] {
  const names = new Set(choices.map(({ name }) => name.trim()));
  return faults.filter(({ field }) => !names.has(field));
}
