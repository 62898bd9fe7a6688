import { quantile } from '@/lib/core/stats/quantile';
import type { Found } from './judge-part';
import type { Judgement } from './judge-unit';
import { MECHANISMS, SCENARIOS } from './ranges';
import { SHARES } from './simulated-cycles';
import { type Summary, summarise } from './summarise';

type Line = { scenario: string; group: string; shareOfLife: number } & Summary;

/** Every line of the report: by scenario and share of life, and at half life by what the units have in common. */
export function reportLines({ judgements }: Found): Line[] {
  return SCENARIOS.flatMap((scenario) => {
    const own = judgements.filter((each) => each.scenario === scenario);
    const at = (shareOfLife: number) => own.filter((each) => each.shareOfLife === shareOfLife);
    const whole = SHARES.map((share) => lineOf(scenario, 'all', at(share)));
    const parts = groups(at(0.5)).map(([group, members]) => lineOf(scenario, group, members));
    return [...whole, ...parts].flatMap((line) => line ?? []);
  });
}

function lineOf(scenario: string, group: string, members: Judgement[]): Line | null {
  if (members.length === 0) return null;
  return { scenario, group, shareOfLife: members[0]!.shareOfLife, ...summarise(members) };
}

function groups(members: Judgement[]): [string, Judgement[]][] {
  const where = (name: string, is: (each: Judgement) => boolean): [string, Judgement[]] => [
    name,
    members.filter(is),
  ];
  return [
    ...MECHANISMS.map((mechanism) => where(mechanism, (each) => each.mechanism === mechanism)),
    where('1 earlier', ({ earlier }) => earlier === 1),
    where('2 earlier', ({ earlier }) => earlier === 2),
    where('3 or 4 earlier', ({ earlier }) => earlier === 3 || earlier === 4),
    where('5 or more earlier', ({ earlier }) => earlier >= 5),
    where('datasheet clean', ({ clean }) => clean === 'datasheet'),
    where('learned clean', ({ clean }) => clean === 'learned'),
    where('changed ways', ({ hasChanged }) => hasChanged),
  ];
}

const HEADER = [
  'scenario',
  'group',
  'life',
  'cycles',
  'P10-P90 holds',
  '95 %',
  'below',
  'above',
  'error',
  'floor',
  'line',
  'ratio',
  'silent',
  'no date',
];

/** The report as text: one table, then how hard the fleet was. */
export function reportText(lines: Line[], { noises }: Found): string {
  const rows = [HEADER, ...lines.map(cells)];
  const widths = HEADER.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
  const table = rows.map((row) =>
    row.map((cell, i) => (i < 2 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!))).join('  '),
  );
  return [
    ...table,
    '',
    `Daily figures against the truth, as shares of the limit: scatter ${spread(noises.map(({ scatter }) => scatter))};`,
    `common offset ${spread(noises.map(({ offset }) => Math.abs(offset)))} (median; 10 % to 90 % of cycles).`,
    'error, line: median |P50 − truth| over the time left, of the product and of the straight line;',
    'floor: of one who knows the true growth, but its level only as the daily figures show it.',
  ].join('\n');
}

function cells(line: Line): string[] {
  return [
    line.scenario,
    line.group,
    percent(line.shareOfLife, 0),
    String(line.count),
    percent(line.coverage),
    `${percent(line.coverageLow)} to ${percent(line.coverageHigh)}`,
    percent(line.below),
    percent(line.above),
    percent(line.medianError),
    percent(line.floor),
    percent(line.lineMedianError),
    Number.isFinite(line.ratio) ? line.ratio.toFixed(3) : '-',
    percent(line.silent),
    percent(line.undated),
  ];
}

function spread(values: number[]): string {
  const at = (probability: number) => percent(quantile(values, probability));
  return `${at(0.5)} (${at(0.1)} to ${at(0.9)})`;
}

function percent(share: number, digits = 1): string {
  return Number.isFinite(share) ? `${(100 * share).toFixed(digits)} %` : 'never';
}
