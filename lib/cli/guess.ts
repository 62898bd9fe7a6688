import { createReadStream } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { AppError } from '@/lib/contract/app-error';
import { type MappedColumn, type MappingTask, SURE } from '@/lib/contract/column-guess';
import type { Mapping } from '@/lib/contract/mapping';
import { SENSOR_WORDS } from '@/lib/contract/sensor-words';
import type { Context } from '@/lib/work/context';
import { guessMapping, mappingOfGuesses } from '@/lib/work/guess-mapping';
import { saveMapping } from '@/lib/work/saved-mappings';
import { message, print } from './output';
import { withContext } from './with-context';

export type GuessOptions = { mappingOut?: string; saveMapping?: string; json?: boolean };

/** Prints which columns of a file may be which sensors; a mapping is written only where that is asked for. */
export async function guessFile(paths: string[], options: GuessOptions): Promise<void> {
  const path = paths[0]!;
  if (paths.length > 1)
    throw new AppError('invalid-input', 'Guesses are made for one file at a time: name a single one');
  await withContext(async (context) => {
    const file = basename(path);
    const task = await guessMapping(context, { file, open: () => createReadStream(path) });
    if (task === null) {
      message(`${file}: its header says what each column is; no mapping is needed`);
      return;
    }
    print(options, { document: task, table: { columns: COLUMNS, rows: task.columns.map(rowOf) } });
    const sure = task.columns.filter(isSure).length;
    message(`${file}: ${task.columns.length} names, ${sure} sure; these are guesses, look them over`);
    await keep(context, task, options);
  });
}

/** Never 1.00: a guess stays one. */
const MOST_SHOWN = 0.99;

const COLUMNS = ['column', 'unit', 'sensor', 'unit of measure', 'confidence', 'why'];

function rowOf({ name, guess }: MappedColumn): (string | number | null)[] {
  if (guess === null) return [name, null, null, null, null, 'nothing speaks for any sensor'];
  const { tag, sensor, unit, confidence, reasons } = guess;
  return [
    name,
    tag,
    SENSOR_WORDS[sensor],
    unit,
    Math.min(MOST_SHOWN, confidence).toFixed(2),
    reasons.join('; '),
  ];
}

function isSure({ guess }: MappedColumn): boolean {
  return guess !== null && guess.confidence >= SURE;
}

async function keep(context: Context, task: MappingTask, options: GuessOptions): Promise<void> {
  const { mappingOut, saveMapping: name } = options;
  if (mappingOut === undefined && name === undefined) return;
  const mapping: Mapping = mappingOfGuesses(task, SURE);
  const taken = Object.values(mapping.sensors).filter((sensor) => sensor !== null).length;
  const left = Object.keys(mapping.sensors).length - taken;
  const skipped = left === 0 ? 'none left out' : `${left} left out (null), as no guess for them is sure`;
  const counts = `${taken} ${taken === 1 ? 'column' : 'columns'} taken, ${skipped}`;
  if (mappingOut !== undefined) {
    await writeNew(mappingOut, `${JSON.stringify(mapping, null, 2)}\n`);
    message(`${mappingOut}: ${counts}`);
  }
  if (name !== undefined) {
    await saveMapping(context, name, { mapping, revision: null });
    message(`saved as "${name}": ${counts}; see cleanby mapping show "${name}"`);
  }
}

/** @throws AppError 'not-readable' where the file is there already */
async function writeNew(path: string, text: string): Promise<void> {
  await writeFile(path, text, { flag: 'wx' }).catch((error: Error) => {
    throw new AppError('not-readable', `${path} cannot be written: ${error.message}`);
  });
}
