import { Command, CommanderError } from 'commander';
import { AppError } from '@/lib/contract/app-error';
import { addAnalyse } from './analyse';
import { addCleaned } from './cleaned';
import { addEvaluate } from './evaluate';
import { addImport } from './import';
import { message } from './output';
import { addRegister } from './register';
import { addServe } from './serve';
import { addShow } from './show';

/** Exit codes of every verb. */
const REFUSED = 1;
const WRONG_USAGE = 2;

const program = new Command('cleanby')
  .description('Clean-by dates for heat exchangers. The database is DATABASE_URL, or data/cleanby.db.')
  .exitOverride()
  .configureHelp({ showGlobalOptions: true })
  .configureOutput({ writeErr: (text) => process.stderr.write(text) });
for (const add of [addRegister, addImport, addCleaned, addAnalyse, addShow, addEvaluate, addServe])
  add(program);

try {
  await program.parseAsync();
  // Idle database threads must not keep a finished command alive.
  if (process.exitCode === undefined) process.exitCode = 0;
} catch (error) {
  process.exitCode = report(error);
}

function report(error: unknown): number {
  if (error instanceof CommanderError) {
    return ['commander.helpDisplayed', 'commander.help', 'commander.version'].includes(error.code)
      ? 0
      : WRONG_USAGE;
  }
  if (error instanceof AppError) {
    for (const fault of error.faults) {
      const line = fault.line === undefined ? '' : `line ${fault.line}, `;
      message(`  ${line}${fault.field}: ${fault.message}`);
    }
    message(error.message);
    return REFUSED;
  }
  throw error;
}
