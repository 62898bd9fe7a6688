import { access } from 'node:fs/promises';
import { AppError } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import { type Mapping, mappingSchema } from '@/lib/contract/mapping';
import type { Context } from '@/lib/work/context';
import { savedMapping } from '@/lib/work/saved-mappings';
import { readJson } from './json-file';

export type StatedMapping = { mapping: Mapping | null; mappingName: string | null };

/** The mapping that a command states: a file where it is written as one (M.json, ./m), else the name of a saved one. */
export async function statedMapping(context: Context, stated: string | undefined): Promise<StatedMapping> {
  if (stated === undefined) return { mapping: null, mappingName: null };
  if (/[/\\]|\.json$/i.test(stated)) return { mapping: await readMappingFile(stated), mappingName: null };
  const { mapping } = await savedMapping(context, stated);
  return { mapping, mappingName: stated };
}

/** @throws AppError 'not-readable' or, naming each field, 'invalid-input' */
export async function readMappingFile(path: string): Promise<Mapping> {
  const parsed = mappingSchema.safeParse(await readJson(path));
  if (parsed.success) return parsed.data;
  throw new AppError('invalid-input', `${path} is not a mapping`, faultsOf(parsed.error));
}

/** @throws AppError 'not-readable' */
export async function readableFile(path: string): Promise<void> {
  await access(path).catch((error: Error) => {
    throw new AppError('not-readable', `${path} cannot be read: ${error.message}`);
  });
}
