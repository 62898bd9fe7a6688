import { createReadStream } from 'node:fs';
import { access } from 'node:fs/promises';
import { basename } from 'node:path';
import type { Command } from 'commander';
import { AppError } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import type { ImportReport } from '@/lib/contract/import-report';
import { type Mapping, mappingSchema } from '@/lib/contract/mapping';
import { importReadings } from '@/lib/work/import-readings';
import { readJson } from './json-file';
import { message, print } from './output';
import { withContext } from './with-context';

type Options = { mapping?: string; timeZone?: string; check?: boolean; json?: boolean };

export function addImport(program: Command): void {
  program
    .command('import')
    .argument('<file...>', 'readings as CSV, plain or gzip')
    .option('--mapping <file>', 'which column or sensor belongs to which unit')
    .option('--time-zone <zone>', 'zone of times without offset, such as Europe/Lisbon')
    .option('--check', 'read and count, store nothing')
    .option('--json', 'print the reports as JSON')
    .description('takes readings in; rows that cannot be read are kept aside with line and reason')
    .action(importFiles);
}

async function importFiles(paths: string[], options: Options): Promise<void> {
  const mapping = options.mapping === undefined ? null : await readMapping(options.mapping);
  const reports = await withContext(async (context) => {
    const done: ImportReport[] = [];
    for (const path of paths) {
      await access(path).catch((error: Error) => {
        throw new AppError('not-readable', `${path} cannot be read: ${error.message}`);
      });
      const source = createReadStream(path);
      const { timeZone = null, check = false } = options;
      const report = await importReadings(context, {
        name: basename(path),
        source,
        mapping,
        timeZone,
        check,
      });
      message(inWords(report));
      done.push(report);
    }
    return done;
  });
  if (options.json) {
    print(options, {
      document: reports.length === 1 ? reports[0] : reports,
      table: { columns: [], rows: [] },
    });
  }
}

async function readMapping(path: string): Promise<Mapping> {
  const parsed = mappingSchema.safeParse(await readJson(path));
  if (parsed.success) return parsed.data;
  throw new AppError('invalid-input', `${path} is not a mapping`, faultsOf(parsed.error));
}

function inWords(report: ImportReport): string {
  const { read, added, replaced, unchanged, setAside } = report;
  const reasons = Object.entries(report.setAsideByReason).map(([reason, count]) => `${count} ${reason}`);
  const aside = setAside === 0 ? '' : ` (${reasons.join(', ')})`;
  const counts = `${added} added, ${replaced} replaced, ${unchanged} unchanged, ${setAside} set aside${aside}`;
  return `${report.file}: ${read} rows read, ${counts}${report.batch === null ? '; nothing stored (check)' : ''}`;
}
