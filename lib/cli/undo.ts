import type { Command } from 'commander';
import { undoImport } from '@/lib/work/import-batches';
import { message } from './output';
import { wholeNumber } from './stated';
import { withContext } from './with-context';

export function addUndo(program: Command): void {
  program
    .command('undo')
    .argument('<batch>', 'number of the import, as import and show imports give it', wholeNumber)
    .option('--json', 'print what was undone as JSON')
    .description('takes an import back: what it added is removed, what it replaced is put back')
    .action(undo);
}

async function undo(batch: number, options: { json?: boolean }): Promise<void> {
  const undone = await withContext((context) => undoImport(context, batch));
  if (options.json) process.stdout.write(`${JSON.stringify(undone, null, 2)}\n`);
  const { removed, restored, kept, isAnalysed } = undone;
  message(
    `import ${batch} undone: ${removed} removed, ${restored} put back, ${kept} kept as a later import has them`,
  );
  if (!isAnalysed) message('results are not up to date; run cleanby analyse');
}
