import { createReadStream } from 'node:fs';
import { basename } from 'node:path';
import { type Command, Option } from 'commander';
import type { ImportReport } from '@/lib/contract/import-report';
import { withTimeFormat } from '@/lib/contract/mapping';
import { TIME_FORMATS, type TimeFormat } from '@/lib/contract/time-format';
import { importReadings } from '@/lib/work/import-readings';
import { whyNothingTaken } from '@/lib/work/nothing-taken';
import { isUnended, PERHAPS_CUT } from '@/lib/work/watch/unended-file';
import { type GuessOptions, guessFile } from './guess';
import { readableFile, statedMapping } from './mapping-file';
import { message, print } from './output';
import { withContext } from './with-context';

type Options = GuessOptions & {
  mapping?: string;
  timeZone?: string;
  timeFormat?: TimeFormat;
  check?: boolean;
  guess?: boolean;
};

export function addImport(program: Command): void {
  program
    .command('import')
    .argument('<file...>', 'readings as CSV, plain or gzip')
    .option(
      '--mapping <name>',
      'saved mapping, or a file such as M.json: which column or sensor belongs to which unit',
    )
    .option('--time-zone <zone>', 'zone of times without offset, such as Europe/Lisbon')
    .addOption(
      new Option('--time-format <format>', 'how times are written, where the file does not show it').choices(
        TIME_FORMATS,
      ),
    )
    .option('--check', 'read and count, store nothing')
    .option('--guess', 'print which columns may be which sensors, and store no readings')
    .option('--mapping-out <file>', 'with --guess: write the sure guesses as a mapping to look over')
    .option('--save-mapping <name>', 'with --guess: keep the sure guesses as a saved mapping')
    .option('--json', 'print the reports as JSON')
    .description('takes readings in; rows that cannot be read are kept aside with line and reason')
    .action(importFiles);
}

/** A report with what a person should look at. */
type TakenFile = ImportReport & { notice?: string };

async function importFiles(paths: string[], options: Options): Promise<void> {
  for (const path of paths) await readableFile(path);
  if (options.guess) {
    await guessFile(paths, options);
    return;
  }
  const reports = await withContext(async (context) => {
    const { mapping: stated, mappingName } = await statedMapping(context, options.mapping);
    const mapping = withTimeFormat(stated, options.timeFormat ?? null);
    const done: TakenFile[] = [];
    const refusals: string[] = [];
    for (const path of paths) {
      const source = createReadStream(path);
      const { timeZone = null, check = false } = options;
      const report = await importReadings(context, {
        name: basename(path),
        source,
        mapping,
        mappingName,
        timeZone,
        check,
      });
      message(inWords(report));
      const isCut = await isUnended(path);
      if (isCut) message(`${report.file}: ${PERHAPS_CUT}`);
      done.push(isCut ? { ...report, notice: PERHAPS_CUT } : report);
      const why = await whyNothingTaken(context, report);
      if (why !== null) refusals.push(`${report.file}: ${why}`);
    }
    // Last, where a person and a script look first.
    for (const refusal of refusals) message(refusal);
    if (refusals.length > 0) process.exitCode = 1;
    return done;
  });
  if (options.json) {
    print(options, {
      document: reports.length === 1 ? reports[0] : reports,
      table: { columns: [], rows: [] },
    });
  }
}

function inWords(report: ImportReport): string {
  const { read, added, replaced, unchanged, setAside } = report;
  const reasons = Object.entries(report.setAsideByReason).map(([reason, count]) => `${count} ${reason}`);
  const aside = setAside === 0 ? '' : ` (${reasons.join(', ')})`;
  const counts = `${added} added, ${replaced} replaced, ${unchanged} unchanged, ${setAside} set aside${aside}`;
  return `${report.file}: ${read} rows read, ${counts}${report.batch === null ? '; nothing stored (check)' : ''}`;
}
