import { writeFile } from 'node:fs/promises';
import { type Command, Option } from 'commander';
import { AppError } from '@/lib/contract/app-error';
import { makeFleetSheet } from '@/lib/work/fleet-sheet';
import { message } from './output';
import { withContext } from './with-context';

type Options = { withUnits?: boolean; measures: 'si' | 'us'; force?: boolean };

export function addTemplate(program: Command): void {
  program
    .command('template')
    .argument('<fleet.xlsx>', 'workbook to write')
    .option('--with-units', 'with the known units, to be edited and registered again')
    .option('--force', 'write over a file that is there')
    .addOption(
      new Option('--measures <system>', 'units of measure of empty columns')
        .choices(['si', 'us'])
        .default('si'),
    )
    .description('writes the workbook that units are described in: fill it in, then `cleanby register` it')
    .action(async (path: string, { withUnits = false, measures, force = false }: Options) => {
      const workbook = await withContext((context) =>
        makeFleetSheet(context, { withUnits, system: measures }),
      );
      await writeNew(path, workbook, force);
      message(
        `${path} written${withUnits ? ', with the known units' : ''}; fill it in, then: cleanby register ${path}`,
      );
    });
}

/** A workbook may have been filled in for hours: it is not written over by mistake. */
async function writeNew(path: string, bytes: Uint8Array, isForced: boolean): Promise<void> {
  try {
    await writeFile(path, bytes, { flag: isForced ? 'w' : 'wx' });
  } catch (error) {
    const isThere = (error as NodeJS.ErrnoException).code === 'EEXIST';
    const remedy = isThere ? 'is there already; name another file, or add --force' : (error as Error).message;
    throw new AppError('not-readable', `${path} was not written: it ${remedy}`);
  }
}
