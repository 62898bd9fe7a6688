import type { Command } from 'commander';
import { restoreAny } from '@/lib/work/safekeeping';
import { message } from './output';

export function addRestore(program: Command): void {
  program
    .command('restore')
    .argument('<file>', 'a backup')
    .description('brings a backup back where there is no database yet, or an empty one')
    .action(async (file: string) => {
      const { database, migrated, verification } = await restoreAny(file);
      const brought = migrated.length === 0 ? '' : `, brought up to date by ${migrated.length} migrations`;
      message(
        `${database}: restored from ${file}${brought}, verified in ${verification.checks.length} checks`,
      );
    });
}
