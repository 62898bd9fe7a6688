import type { Command } from 'commander';
import { backUpAny } from '@/lib/work/safekeeping';
import { message } from './output';

export function addBackup(program: Command): void {
  program
    .command('backup')
    .argument('<file>', 'where the copy goes; it holds accounts too, so keep it as safe as the database')
    .option('--replace', 'replace an earlier backup of that name')
    .description('writes a consistent copy of the database, also while it is in use')
    .action(async (file: string, options: { replace?: boolean }) => {
      const { bytes, verification } = await backUpAny({ file, replace: options.replace });
      const size = (bytes / 2 ** 20).toFixed(1);
      message(`${file}: ${size} MiB, whole and verified in ${verification.checks.length} checks`);
    });
}
