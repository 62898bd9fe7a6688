import type { Command } from 'commander';
import { registerFleet } from '@/lib/work/register-fleet';
import { readJson } from './json-file';
import { message, print } from './output';
import { withContext } from './with-context';

export function addRegister(program: Command): void {
  program
    .command('register')
    .argument('<fleet.json>', 'site and units with their datasheets')
    .option('--json', 'print the result as JSON')
    .description('adds or updates units; refuses the whole file if any unit is invalid')
    .action(async (path: string, options: { json?: boolean }) => {
      const document = await readJson(path);
      const { added, updated, unchanged } = await withContext((context) => registerFleet(context, document));
      if (options.json)
        print(options, { document: { added, updated, unchanged }, table: { columns: [], rows: [] } });
      message(`${added.length} units added, ${updated.length} updated, ${unchanged.length} unchanged`);
    });
}
