import type { Command } from 'commander';
import { AppError } from '@/lib/contract/app-error';
import { verifyAny } from '@/lib/work/safekeeping';
import { print } from './output';

export function addVerify(program: Command): void {
  program
    .command('verify')
    .argument('[file]', 'a database or backup; the database of DATABASE_URL where nothing is said')
    .option('--json', 'print what was found as JSON')
    .description('looks the database through without changing it; exit 1 where something is wrong')
    .action(async (file: string | undefined, options: { json?: boolean }) => {
      const verification = await verifyAny(file === undefined ? undefined : `file:${file}`);
      const rows = verification.checks.map(({ name, looked, problems }) => [
        name,
        looked,
        problems.length === 0 ? 'good' : problems.join('; '),
      ]);
      const columns = ['check', 'looked at', 'found'];
      print(options, { document: verification, table: { columns, rows } });
      if (verification.problems > 0) throw damaged(verification);
    });
}

function damaged({ file, checks }: Awaited<ReturnType<typeof verifyAny>>): AppError {
  const bad = checks.filter(({ problems }) => problems.length > 0).map(({ name }) => name);
  return new AppError(
    'database-unusable',
    `${file} is not sound (${bad.join(', ')}): keep a copy of it as it is, and bring back the last backup with npx cleanby restore FILE`,
  );
}
