import type { Command } from 'commander';
import { changesQuerySchema } from '@/lib/contract/changes';
import { showChanges as changesOf } from '@/lib/work/read-changes';
import { message, type OutputOptions, print } from './output';
import { stated } from './stated';
import { withContext } from './with-context';

type Options = OutputOptions & { tag?: string; since?: string; who?: string; before?: string };

/** Options of `show changes` beside those of every show. */
export function addChangesOptions(command: Command): Command {
  return command
    .option('--tag <name>', 'only those of a unit, site or file')
    .option('--since <day>', 'only from that day on, YYYY-MM-DD')
    .option('--who <name>', 'only those of somebody whose name holds this')
    .option('--before <number>', 'only those before that one: the next page');
}

export async function showChanges(options: Options): Promise<void> {
  const { tag, since, who, before } = options;
  const query = stated(changesQuerySchema, { name: tag, from: since, who, before });
  // Whoever runs this can read the whole database file.
  const shown = await withContext((context) => changesOf(context, query, { seesPeople: true }));
  const columns = ['number', 'time', 'who', 'what', 'note'];
  const rows = shown.changes.map(({ id, at, actor, text, note }) => [id, at, actor.name, text, note]);
  print(options, { document: shown, table: { columns, rows } });
  const more = shown.next === null ? '' : `; the next ones with --before ${shown.next}`;
  message(`${rows.length} of ${shown.total} changes${more}`);
}
