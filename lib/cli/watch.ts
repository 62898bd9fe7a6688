import { setTimeout as pause } from 'node:timers/promises';
import { type Command, InvalidArgumentError } from 'commander';
import { isTimeZone } from '@/lib/contract/fleet-file';
import { savedMapping } from '@/lib/work/saved-mappings';
import { FolderWatch, type Look } from '@/lib/work/watch-folder';
import { message } from './output';
import { withContext } from './with-context';

type Options = { mapping?: string; timeZone?: string; every: number; once?: boolean };

const DEFAULT_EVERY = '30s';
/** Between the two looks of --once a file must stand still for as long as this [ms]. */
const SETTLE_MS = 2000;

export function addWatch(program: Command): void {
  program
    .command('watch')
    .argument('<folder>', 'where the plant leaves its files; they are only read')
    .option('--mapping <name>', 'name of a saved mapping, where the files need one')
    .option('--time-zone <zone>', 'zone of times without offset, such as Europe/Lisbon', zoneOf)
    .option(
      '--every <time>',
      'how often to look, such as 30s, 5m or 1h',
      durationOf,
      durationOf(DEFAULT_EVERY),
    )
    .option('--once', 'take what is there and end, for a scheduler; exit code 1 where something was refused')
    .description(
      'takes each new or changed file of a folder, once it stopped growing; a file that rows are added to is read whole each time, and only new rows count',
    )
    .action(watch);
}

async function watch(folder: string, options: Options): Promise<void> {
  const stop = new AbortController();
  for (const name of ['SIGINT', 'SIGTERM'] as const)
    process.once(name, () => stop.abort(new DOMException('stopped', 'AbortError')));
  await withContext(async (context) => {
    // A wrong name is told at once, not at every look.
    if (options.mapping !== undefined) await savedMapping(context, options.mapping);
    const watching = new FolderWatch(context, {
      folder,
      mappingName: options.mapping ?? null,
      timeZone: options.timeZone ?? null,
      say: (line) => message(`${new Date().toISOString()} ${line}`),
      signal: stop.signal,
    });
    try {
      if (options.once) await lookOnce(watching, options.every, stop.signal);
      else await lookOnAndOn(watching, options.every, { folder, signal: stop.signal });
    } catch (error) {
      if (!stop.signal.aborted) throw error;
      message('stopped; what was under way is taken the next time');
    }
  });
}

async function lookOnAndOn(
  watching: FolderWatch,
  every: number,
  { folder, signal }: { folder: string; signal: AbortSignal },
): Promise<void> {
  message(`watching ${folder} every ${every / 1000} s (stop it with Ctrl-C)`);
  for (;;) {
    await watching.look();
    await pause(every, undefined, { signal });
  }
}

/** Two looks, as a file counts once it stood still between them. */
async function lookOnce(watching: FolderWatch, every: number, signal: AbortSignal): Promise<void> {
  const first = await watching.look();
  const looks: Look[] = [first];
  if (first.growing > 0) {
    await pause(Math.min(every, SETTLE_MS), undefined, { signal });
    looks.push(await watching.look());
  }
  const sum = (of: keyof Look) => looks.reduce((total, look) => total + look[of], 0);
  const growing = looks.at(-1)!.growing;
  message(
    `${sum('taken')} taken, ${sum('refused')} refused, ${sum('failed')} not readable, ${growing} still growing`,
  );
  if (sum('refused') + sum('failed') > 0) process.exitCode = 1;
}

const MS = { ms: 1, s: 1000, m: 60_000, h: 3_600_000 } as const;
const LEAST_MS = 10;
const MOST_MS = 24 * MS.h;

function durationOf(text: string): number {
  const [, number, unit] = /^(\d{1,6})(ms|s|m|h)$/.exec(text) ?? [];
  const length = Number(number) * (MS[unit as keyof typeof MS] ?? Number.NaN);
  if (length >= LEAST_MS && length <= MOST_MS) return length;
  throw new InvalidArgumentError('Write a number with ms, s, m or h, such as 30s; a day at most.');
}

function zoneOf(text: string): string {
  if (isTimeZone(text)) return text;
  throw new InvalidArgumentError('That is no time zone; write its place, such as Europe/Lisbon.');
}
