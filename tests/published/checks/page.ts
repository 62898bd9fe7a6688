import { type Check, differenceOf, type Subject, worstRow } from './check';
import { differenceFigure, ourFigure, theirFigure } from './figures';
import { SOURCES, type Source, type SourceName } from './sources';

type Count = { sources: SourceName[]; checks: number; values: number };

/** Sources of one kind that are cited, with the number of checks and of values against them. */
export function countOf(kind: Source['kind'], subjects: Subject[]): Count {
  const checks = subjects
    .flatMap((subject) => subject.checks)
    .filter(({ source }) => SOURCES[source].kind === kind);
  const cited = new Set(checks.map(({ source }) => source));
  return {
    sources: (Object.keys(SOURCES) as SourceName[]).filter((name) => cited.has(name)),
    checks: checks.length,
    values: checks.reduce((sum, { rows }) => sum + rows.length, 0),
  };
}

/** Whether the last bits agree is the machine's affair: 0 stands only where no other difference is allowed. */
function differenceWords(check: Check): string {
  const row = worstRow(check.rows, check.tolerance);
  const { scale, words } = check.tolerance;
  const isExact = words.startsWith('none') || row.theirs === null;
  if (isExact && differenceOf(row, check.tolerance) === 0) return '0';
  const isRelative = scale === 'relative' && row.theirs !== 0;
  return `${differenceFigure(row, check.tolerance, check.isIterated === true)}${isRelative ? ' rel.' : ''}`;
}

function cell(words: string): string {
  return words.replace(/\|/g, '\\|');
}

function line(check: Check): string {
  const { id, quantity, unit, rows, isIterated } = check;
  const row = isIterated ? rows[0]! : worstRow(rows, check.tolerance);
  const cells = [
    id.replace(`: ${quantity}`, ''),
    unit === '–' ? quantity : `${quantity} [${unit}]`,
    check.source,
    check.origin,
    String(rows.length),
    rows.length > 1 && !isIterated ? row.at : '',
    theirFigure(row),
    ourFigure(row, check.tolerance, isIterated === true),
    differenceWords(check),
    check.tolerance.words,
  ];
  return `| ${cells.map(cell).join(' | ')} |`;
}

const HEAD = [
  '| check | quantity | source | figure is | values | worst at | theirs | ours | difference | tolerance |',
  '| --- | --- | --- | --- | ---: | --- | ---: | ---: | ---: | --- |',
];

function section({ title, checks }: Subject): string[] {
  const values = checks.reduce((sum, { rows }) => sum + rows.length, 0);
  return [
    '',
    `## ${title}`,
    '',
    `${checks.length} checks, ${values} values.`,
    '',
    ...HEAD,
    ...checks.map(line),
  ];
}

function sourceLines(subjects: Subject[]): string[] {
  const checks = subjects.flatMap((subject) => subject.checks);
  return (['publication', 'program', 'reference set'] as const)
    .flatMap((kind) => countOf(kind, subjects).sources)
    .map((name) => {
      const { title, kind } = SOURCES[name];
      const count = checks.filter(({ source }) => source === name).length;
      return `| ${name} | ${title} | ${kind} | ${count} |`;
    });
}

function originLines(subjects: Subject[]): string[] {
  const checks = subjects.flatMap((subject) => subject.checks);
  return (['printed', 'recalled', 'computed'] as const).map((word) => {
    const own = checks.filter(({ origin }) => origin === word);
    return `| ${word} | ${own.length} | ${own.reduce((sum, { rows }) => sum + rows.length, 0)} |`;
  });
}

/** The page of every published check, in Markdown. */
export function checksPage(subjects: Subject[]): string {
  const publications = countOf('publication', subjects);
  const programs = countOf('program', subjects);
  const set = countOf('reference set', subjects);
  return [
    '# Published checks',
    '',
    'Written by `npx tsx tests/published/write-checks.ts`; a test compares it with the program. What the words mean, which',
    'textbooks read charts and what is left out: [README.md](README.md).',
    '',
    '| against | sources | checks | values |',
    '| --- | ---: | ---: | ---: |',
    `| publications and public pages | ${publications.sources.length} | ${publications.checks} | ${publications.values} |`,
    `| general-purpose programs | ${programs.sources.length} | ${programs.checks} | ${programs.values} |`,
    `| formulas worked out for the set of references | – | ${set.checks} | ${set.values} |`,
    `| **together** | **${publications.sources.length + programs.sources.length}** | **${publications.checks + programs.checks + set.checks}** | **${publications.values + programs.values + set.values}** |`,
    '',
    '| figures are | checks | values |',
    '| --- | ---: | ---: |',
    ...originLines(subjects),
    '',
    'A check of several values shows the one that differs most. Differences are rounded to two digits; "rel." is relative.',
    "Of an iteration, whose last bits are the machine's, the first value stands and the power of ten above the largest difference,",
    'or a tenth of the tolerance.',
    '',
    '## Sources',
    '',
    '| name | source | kind | checks |',
    '| --- | --- | --- | ---: |',
    ...sourceLines(subjects),
    ...subjects.flatMap(section),
    '',
  ].join('\n');
}
