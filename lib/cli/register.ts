import { readFile } from 'node:fs/promises';
import type { Command } from 'commander';
import { AppError } from '@/lib/contract/app-error';
import type { Context } from '@/lib/work/context';
import { registerFleet } from '@/lib/work/register-fleet';
import { registerFleetSheet } from '@/lib/work/take-fleet-sheet';
import { readJson } from './json-file';
import { message, print } from './output';
import { withContext } from './with-context';

type Registered = { added: string[]; updated: string[]; unchanged: string[]; notes?: string[] };

export function addRegister(program: Command): void {
  program
    .command('register')
    .argument(
      '<fleet>',
      'site and units with their datasheets: fleet file (JSON), or fleet sheet (.xlsx, .csv)',
    )
    .option('--json', 'print the result as JSON')
    .description('adds or updates units; refuses the whole file if any unit is invalid')
    .action(async (path: string, options: { json?: boolean }) => {
      const register = await opened(path);
      const { added, updated, unchanged, notes = [] } = await withContext(register);
      if (options.json)
        print(options, { document: { added, updated, unchanged, notes }, table: { columns: [], rows: [] } });
      for (const note of notes) message(`  ${note}`);
      message(`${added.length} units added, ${updated.length} updated, ${unchanged.length} unchanged`);
    });
}

/** What registers a file; it is read before the database is opened. */
async function opened(path: string): Promise<(context: Context) => Promise<Registered>> {
  if (!/\.(xlsx|csv|tsv|txt)$/i.test(path)) {
    const document = await readJson(path);
    return (context) => registerFleet(context, document);
  }
  const sheet = await readFile(path).catch((error: Error) => {
    throw new AppError('not-readable', `${path} cannot be read: ${error.message}`);
  });
  return (context) => registerFleetSheet(context, sheet);
}
