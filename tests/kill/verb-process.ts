import { Command } from 'commander';

// One verb of the command line without the others, whose loading would be most of its time.
const VERBS: Record<string, () => Promise<(program: Command) => void>> = {
  import: async () => (await import('@/lib/cli/import')).addImport,
  work: async () => (await import('@/lib/cli/work')).addWork,
  analyse: async () => (await import('@/lib/cli/analyse')).addAnalyse,
  show: async () => (await import('@/lib/cli/show')).addShow,
  backup: async () => (await import('@/lib/cli/backup')).addBackup,
  restore: async () => (await import('@/lib/cli/restore')).addRestore,
};

const program = new Command('cleanby');
const add = await VERBS[process.argv[2] ?? '']!();
add(program);
await program.parseAsync();
