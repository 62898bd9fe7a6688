import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import vm from 'node:vm';
import ts from 'typescript';
import { expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');
/** Longer than any cell or field that is looked at [characters], and still matched at once by what needs one pass over it. */
const LENGTH = 30_000;
/** A pass takes well under a millisecond; what needs the square of it takes seconds [ms]. */
const MOST_MS = 400;

/** Patterns that see only short texts, and how long those are at most. */
const BOUNDED: Record<string, number> = {
  // Heads of a pasted table, cut to 200 characters.
  'lib/ingest/property-header.ts': 200,
  // Digits of a number as the program writes it.
  'lib/report/format/figure.ts': 400,
};

type Pattern = { place: string; source: string; flags: string };

/** Every regular expression written in the sources. */
function patterns(): Pattern[] {
  const files = ['app', 'lib', 'prisma']
    .flatMap((folder) =>
      readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map((name) =>
        join(folder, name),
      ),
    )
    .filter((path) => /\.(tsx?|mjs)$/.test(path));
  return [...files, 'proxy.ts'].flatMap((path) => {
    const text = readFileSync(join(ROOT, path), 'utf8');
    const file = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
    const found: Pattern[] = [];
    const visit = (node: ts.Node) => {
      if (node.kind === ts.SyntaxKind.RegularExpressionLiteral) {
        const written = node.getText();
        const end = written.lastIndexOf('/');
        const line = file.getLineAndCharacterOfPosition(node.getStart()).line + 1;
        found.push({
          place: `${path}:${line}`,
          source: written.slice(1, end),
          flags: written.slice(end + 1),
        });
      }
      ts.forEachChild(node, visit);
    };
    visit(file);
    return found;
  });
}

/** Long runs of what patterns repeat, with an end that makes them fail. */
const RUNS = [
  'a',
  '0',
  ' ',
  '\t',
  '\n',
  '.',
  ',',
  '-',
  '/',
  '_',
  '(',
  '[',
  '"',
  '=',
  'a ',
  '0.',
  '0,',
  'a-',
  'a.',
  '()',
  '[]',
  'é',
  '\u00a0',
];
const ENDS = ['', '!', '\n!', '\u0000'];

function texts({ place, source }: Pattern): string[] {
  const length = BOUNDED[place.split(':')[0]!] ?? LENGTH;
  // A run is reached only behind what the pattern begins with.
  const beginnings = ['', ...(source.match(/[A-Za-z0-9[({"'= -]/g) ?? []).slice(0, 2)];
  return beginnings.flatMap((beginning) =>
    RUNS.flatMap((run) => ENDS.map((end) => beginning + run.repeat(length / run.length) + end)),
  );
}

it('no regular expression takes long over a long text, however it is made', () => {
  const found = patterns();
  expect(found.length).toBeGreaterThan(100);
  const context = vm.createContext({ given: [] as string[] });
  const slow = new Set<string>();
  for (const pattern of found) {
    const { place, source, flags } = pattern;
    for (const text of texts(pattern)) {
      context.given = text;
      context.source = source;
      context.flags = flags;
      try {
        vm.runInContext('new RegExp(source, flags).test(given)', context, { timeout: MOST_MS });
      } catch (error) {
        if ((error as { code?: string }).code !== 'ERR_SCRIPT_EXECUTION_TIMEOUT') throw error;
        slow.add(`${place}  /${source}/${flags}  on ${JSON.stringify(text.slice(0, 6))}`);
        break;
      }
    }
  }
  expect([...slow]).toEqual([]);
}, 300_000);
