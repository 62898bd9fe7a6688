import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { BenchRow } from './measure';

const PAGE = fileURLToPath(new URL('FIGURES.md', import.meta.url));
/** Figures that stand where they are needed. */
const OTHER_PAGES: Record<string, string> = {
  scale: fileURLToPath(new URL('../../prisma/POSTGRES.md', import.meta.url)),
};

/** What a run was made with: the machine, the commit, the day. */
export function runInWords(now: Date): string {
  const processors = cpus();
  const memory = Math.round(totalmem() / 2 ** 30);
  return `${now.toISOString().slice(0, 10)}, commit ${commit()}, ${processors.length} × ${processors[0]?.model.trim() ?? 'unknown processor'}, ${memory} GiB, Node ${process.versions.node}`;
}

function commit(): string {
  try {
    const hash = execFileSync('git', ['rev-parse', '--short', 'HEAD'], { encoding: 'utf8' }).trim();
    const isChanged =
      execFileSync('git', ['status', '--porcelain', '-uno'], { encoding: 'utf8' }).trim() !== '';
    return isChanged ? `${hash} with changes` : hash;
  } catch {
    return 'unknown';
  }
}

/** Rows as a table in Markdown. */
export function tableOf(rows: readonly BenchRow[]): string {
  const head = ['what', 'ours', 'peer', 'unit', 'ours / peer', 'asked', 'memory [MiB]'];
  const cells = rows.map((row) => [
    row.what,
    figure(row.ours),
    row.peer === null ? (row.peerName ?? '–') : `${figure(row.peer)} (${row.peerName})`,
    row.unit,
    row.ratio === null ? '–' : figure(row.ratio),
    askedInWords(row),
    row.memory === null ? '–' : row.memory.toFixed(0),
  ]);
  const line = (texts: readonly string[]) => `| ${texts.join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...cells.map(line)].join('\n');
}

/** Whether a row is as asked; null where nothing is asked. */
export function isAsAsked({ limit, ratio, ours }: BenchRow): boolean | null {
  if (limit === null) return null;
  const judged = ratio ?? ours;
  return 'most' in limit ? judged <= limit.most : judged >= limit.least;
}

function askedInWords(row: BenchRow): string {
  const { limit } = row;
  if (limit === null) return '–';
  const asked = 'most' in limit ? `≤ ${limit.most}` : `≥ ${limit.least}`;
  return `${asked}: ${isAsAsked(row) ? 'held' : '**missed**'}`;
}

/** Three digits that count, without a power of ten. */
function figure(value: number): string {
  if (!Number.isFinite(value)) return String(value);
  if (Math.abs(value) >= 100) return Math.round(value).toLocaleString('en-GB');
  return String(Number(value.toPrecision(3)));
}

/** Puts the table of a piece into its page (FIGURES.md) in the place of the one before. */
export function keepFigures(piece: string, rows: readonly BenchRow[], run: string): void {
  const path = OTHER_PAGES[piece] ?? PAGE;
  const page = readFileSync(path, 'utf8');
  const begin = `<!-- ${piece} -->`;
  const end = `<!-- end of ${piece} -->`;
  const [before, rest] = page.split(begin);
  const after = rest?.split(end)[1];
  if (after === undefined) throw new Error(`${path} has no place for "${piece}": add ${begin} and ${end}`);
  writeFileSync(path, `${before}${begin}\n\n${run}\n\n${tableOf(rows)}\n\n${end}${after}`);
}
