import { type ChildProcess, fork } from 'node:child_process';
import { join } from 'node:path';
import { AppError } from '../../contract/app-error';
import type {
  Programme,
  ProgrammeOptions,
  ProgrammeSolution,
  SolveProgramme,
} from '../../core/plan/solve-programme';
import { sparseModel } from './sparse-model';

/** HiGHS in a process of its own, until it is closed. */
export type Solver = { solve: SolveProgramme; close: () => void };

/** How long beyond its time limit a solve is waited for [ms]: presolve and root do not look at the clock often. */
const GRACE_MS = 400;
/** Memory the solver's process may take for its own objects [MB]; the WebAssembly's memory comes on top. */
const HEAP_MB = 512;

type Answer = { id: number; solution?: ProgrammeSolution; error?: string };
type Waiting = { id: number; settle: (answer: Answer) => void; fail: (error: Error) => void };

const NOTHING_IN_TIME: ProgrammeSolution = {
  status: 'time-limit',
  cost: Number.POSITIVE_INFINITY,
  bound: Number.NEGATIVE_INFINITY,
  values: null,
  duals: null,
};

/**
 * Opens HiGHS beside this process. One programme at a time; the process is started anew where a programme outlived its
 * time limit.
 *
 * @param signal ends the process and what it is doing
 */
export function openSolver(signal?: AbortSignal): Solver {
  let child: ChildProcess | null = null;
  let waiting: Waiting | null = null;
  let isClosed = false;
  let lastId = 0;

  const kill = () => {
    child?.removeAllListeners();
    // What was under way on its channel may still fail: nobody waits for it.
    child?.on('error', () => {});
    child?.kill('SIGKILL');
    child = null;
  };
  const close = () => {
    isClosed = true;
    kill();
    waiting?.fail(new Error('The solver was closed'));
    signal?.removeEventListener('abort', close);
  };
  signal?.addEventListener('abort', close, { once: true });
  if (signal?.aborted) close();

  const started = () => {
    child ??= startProcess({
      answer: (answer) => {
        if (answer.id === waiting?.id) waiting.settle(answer);
      },
      end: (why) => {
        child = null;
        waiting?.fail(
          new AppError(
            'solver-unusable',
            `The solver stopped unexpectedly (${why}): nothing was changed, try again`,
          ),
        );
      },
    });
    return child;
  };

  // It gets ready while the first programme is still being made.
  if (!isClosed) started();

  const solve = async (programme: Programme, options: ProgrammeOptions): Promise<ProgrammeSolution> => {
    if (isClosed) throw new Error('The solver is closed');
    if (waiting !== null) throw new Error('The solver takes one programme at a time');
    lastId += 1;
    const id = lastId;
    let timer: NodeJS.Timeout | undefined;
    try {
      return await new Promise<ProgrammeSolution>((resolve, reject) => {
        waiting = { id, settle: (answer) => settle(answer, { resolve, reject }), fail: reject };
        timer = setTimeout(
          () => {
            kill();
            resolve(NOTHING_IN_TIME);
          },
          options.timeLimit * 1000 + GRACE_MS,
        );
        started().send({ id, programme: sparseModel(programme), options });
      });
    } finally {
      clearTimeout(timer);
      waiting = null;
    }
  };
  return { solve, close };
}

function settle(
  { solution, error }: Answer,
  { resolve, reject }: { resolve: (solution: ProgrammeSolution) => void; reject: (error: Error) => void },
): void {
  if (solution !== undefined) resolve(solution);
  else reject(new Error(`The solver refused the programme: ${error}`));
}

function startProcess(on: { answer: (answer: Answer) => void; end: (why: string) => void }): ChildProcess {
  // The bundled server runs elsewhere than this file stands, so the script is found from the project's root.
  const script = join(
    process.env.CLEANBY_ROOT ?? process.cwd(),
    'lib',
    'work',
    'solver',
    'solver-process.mjs',
  );
  // The bundler would take what is forked for a module of its own.
  const child = fork(/* turbopackIgnore: true */ script, [], {
    serialization: 'advanced',
    // Options of the parent (a loader of TypeScript, a debugger's port) are none of its business.
    execArgv: [`--max-old-space-size=${HEAP_MB}`],
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  });
  child.on('message', (message) => on.answer(message as Answer));
  let hasEnded = false;
  const end = (why: string) => {
    if (!hasEnded) on.end(why);
    hasEnded = true;
  };
  child.on('error', (error) => {
    child.kill('SIGKILL');
    end(error.message);
  });
  child.on('exit', (code, killedBy) => end(killedBy ?? `code ${code}`));
  // A process that waits for work keeps nobody alive; a solve under way does so by its timer.
  child.unref();
  child.channel?.unref();
  return child;
}
