import { readPublished } from '../../support/published-data';
import type { Inputs } from '../../support/rating-steps';
import { FOULING } from '../../support/worked-fouling';
import { RATINGS } from '../../support/worked-ratings';
import { type Check, type Origin, single } from './check';
import type { SourceName } from './sources';
import { absolute } from './tolerance';

/** What our functions make of the inputs of each example. */
export const COMPUTED = { ...RATINGS, ...FOULING };

type Answer = { name: string; unit: string; printed: number; tolerance: number; note?: string };
type Example = {
  id: string;
  book: string;
  where: string;
  problem: string;
  inputs: Inputs;
  answers: Answer[];
  how: string;
};

/** Book and example number stand beside each case of the file. */
export const { cases: examples } = readPublished<{ cases: Example[] }>('worked-examples');

/** Answers that are not of the program, each with the reason. */
export const LEFT_OUT: Record<string, Record<string, string>> = {
  'incropera-11.5': {
    Re: 'a Reynolds number of one tube: no correlation of films is part of the program',
    'h inside': 'a correlation of films (Dittus & Boelter): the printed value is taken as an input instead',
  },
};

const SOURCE_OF_BOOK: [start: string, source: SourceName][] = [
  ['incropera', 'Incropera'],
  ['holman', 'Holman'],
  ['cengel', 'Cengel'],
  ['kern', 'Kern'],
  ['geankoplis', 'Geankoplis'],
  ['kreith', 'Kreith'],
  ['lienhard', 'Lienhard'],
  ['sukhatme', 'Sukhatme'],
  ['janna', 'Janna'],
  ['resistances', 'public page'],
];

const UNITS: Record<string, string> = {
  '-': '–',
  degC: '°C',
  degF: '°F',
  'W/m2K': 'W/(m²·K)',
  'm2K/W': 'm²·K/W',
  m2: 'm²',
  ft2: 'ft²',
  'Btu/h.ft2.F': 'Btu/(h·ft²·°F)',
  'h.ft2.F/Btu': 'h·ft²·°F/Btu',
};

/** Recalled where the file says so of the final answers and nothing printed confirms them. */
function originOf({ how }: Example): Origin {
  const isConfirmed = /agree with the companion|printed in the source|as in the companion/.test(how);
  return /recalled/.test(how) && !isConfirmed ? 'recalled' : 'printed';
}

function toleranceOf({ tolerance, note }: Answer) {
  if (note?.startsWith('chart reading')) return absolute(tolerance, 'chart reading in the book');
  return absolute(
    tolerance,
    note?.replace(/^as above$/, 'follows from a chart reading') ?? 'rounding in the book',
  );
}

function checksOf(example: Example): Check[] {
  const source = SOURCE_OF_BOOK.find(([start]) => example.id.startsWith(start))![1];
  const computed = COMPUTED[example.id]!(example.inputs);
  return example.answers
    .filter(({ name }) => LEFT_OUT[example.id]?.[name] === undefined)
    .map((answer) =>
      single({
        id: `${example.id}: ${answer.name}`,
        quantity: answer.name,
        unit: UNITS[answer.unit] ?? answer.unit,
        source,
        origin: originOf(example),
        tolerance: toleranceOf(answer),
        theirs: answer.printed,
        ours: computed[answer.name]!,
      }),
    );
}

export function workedExampleChecks(): Check[] {
  return examples.flatMap(checksOf);
}
