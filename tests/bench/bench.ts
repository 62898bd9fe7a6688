import { Command } from 'commander';
import { isAsAsked, keepFigures, runInWords, tableOf } from './figures';
import { PIECES } from './pieces';

// npm run bench [pieces…]: measures, each against a peer in the same run, and prints a table.
const program = new Command('bench')
  .argument('[pieces...]', `which ones: ${Object.keys(PIECES).join(', ')}; all where none is named`)
  .option('--runs <n>', 'runs of each, of which the median is taken', '3')
  .option('--scale <share>', 'size of the data: 1 is what the figures are made with', '1')
  .option('--keep', 'write the tables into tests/bench/FIGURES.md')
  .parse();
const options = program.opts<{ runs: string; scale: string; keep?: boolean }>();
const say = (line: string) => process.stderr.write(`${line}\n`);
const names = program.args.length === 0 ? Object.keys(PIECES) : program.args;
const unknown = names.filter((name) => !Object.hasOwn(PIECES, name));
if (unknown.length > 0)
  program.error(`There is no piece "${unknown[0]}". There are: ${Object.keys(PIECES).join(', ')}`);

const run = runInWords(new Date());
let missed = 0;
for (const name of names) {
  const piece = await PIECES[name]!();
  say(`== ${name}: ${piece.about}`);
  const rows = await piece.run({ runs: Number(options.runs), scale: Number(options.scale), say });
  missed += rows.filter((row) => isAsAsked(row) === false).length;
  process.stdout.write(`\n${name}: ${run}\n\n${tableOf(rows)}\n`);
  if (options.keep) keepFigures(name, rows, run);
}
say(missed === 0 ? 'All that is asked was held.' : `${missed} lines miss what is asked.`);
process.exit(missed === 0 ? 0 : 1);
