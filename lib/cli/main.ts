import { Command, CommanderError } from 'commander';
import { knownError } from '@/lib/work/known-error';
import { addAnalyse } from './analyse';
import { addAnswer } from './answer';
import { addBackup } from './backup';
import { addCleaned } from './cleaned';
import { addCorrect } from './correct';
import { addEvaluate } from './evaluate';
import { addImport } from './import';
import { addJudge } from './judge';
import { addMapping } from './mapping';
import { message } from './output';
import { addPlan } from './plan';
import { addPrice } from './price';
import { addRegister } from './register';
import { addRestore } from './restore';
import { addReview } from './review';
import { addServe } from './serve';
import { addShow } from './show';
import { addTemplate } from './template';
import { addToken } from './token';
import { addUser } from './user';
import { addVerify } from './verify';
import { addWatch } from './watch';
import { addWithdraw } from './withdraw';

/** Exit codes of every verb. */
const REFUSED = 1;
const WRONG_USAGE = 2;

const program = new Command('cleanby')
  .description('Clean-by dates for heat exchangers. The database is DATABASE_URL, or data/cleanby.db.')
  .exitOverride()
  .configureHelp({ showGlobalOptions: true })
  .configureOutput({ writeErr: (text) => process.stderr.write(text) });
const VERBS = [
  addTemplate,
  addRegister,
  addImport,
  addMapping,
  addWatch,
  addCleaned,
  addCorrect,
  addJudge,
  addAnswer,
  addWithdraw,
  addPrice,
  addAnalyse,
  addShow,
  addReview,
  addPlan,
  addEvaluate,
  addBackup,
  addRestore,
  addVerify,
  addToken,
  addUser,
  addServe,
];
for (const add of VERBS) add(program);

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
  const known = knownError(error);
  if (known === null) throw error;
  for (const fault of known.faults) {
    const line = fault.line === undefined ? '' : `line ${fault.line}, `;
    message(`  ${line}${fault.field}: ${fault.message}`);
  }
  message(known.message);
  return REFUSED;
}
