import { Command, CommanderError } from 'commander';
import { knownError } from '@/lib/work/known-error';
import { message } from './output';

/** Exit codes of every verb. */
const REFUSED = 1;
const WRONG_USAGE = 2;

const program = new Command('cleanby')
  .description('Clean-by dates for heat exchangers. The database is DATABASE_URL, or data/cleanby.db.')
  .exitOverride()
  .configureHelp({ showGlobalOptions: true })
  .configureOutput({ writeErr: (text) => process.stderr.write(text) });

type Add = (program: Command) => void;

/** Each verb by its name, read when it is asked for: what the others need would take a second or two to load. */
const VERBS: Record<string, () => Promise<Add>> = {
  template: async () => (await import('./template')).addTemplate,
  register: async () => (await import('./register')).addRegister,
  import: async () => (await import('./import')).addImport,
  undo: async () => (await import('./undo')).addUndo,
  mapping: async () => (await import('./mapping')).addMapping,
  watch: async () => (await import('./watch')).addWatch,
  cleaned: async () => (await import('./cleaned')).addCleaned,
  correct: async () => (await import('./correct')).addCorrect,
  judge: async () => (await import('./judge')).addJudge,
  answer: async () => (await import('./answer')).addAnswer,
  withdraw: async () => (await import('./withdraw')).addWithdraw,
  price: async () => (await import('./price')).addPrice,
  analyse: async () => (await import('./analyse')).addAnalyse,
  work: async () => (await import('./work')).addWork,
  show: async () => (await import('./show')).addShow,
  review: async () => (await import('./review')).addReview,
  plan: async () => (await import('./plan')).addPlan,
  evaluate: async () => (await import('./evaluate')).addEvaluate,
  backup: async () => (await import('./backup')).addBackup,
  restore: async () => (await import('./restore')).addRestore,
  verify: async () => (await import('./verify')).addVerify,
  move: async () => (await import('./move')).addMove,
  token: async () => (await import('./token')).addToken,
  user: async () => (await import('./user')).addUser,
  serve: async () => (await import('./serve')).addServe,
};

// Help, and a verb that is none, need them all.
const asked = process.argv[2] ?? '';
const wanted = Object.hasOwn(VERBS, asked) ? [VERBS[asked]!] : Object.values(VERBS);
for (const add of await Promise.all(wanted.map((load) => load()))) add(program);

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
