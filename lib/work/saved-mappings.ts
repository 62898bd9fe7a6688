import { AppError } from '@/lib/contract/app-error';
import { type Mapping, withTimeFormat } from '@/lib/contract/mapping';
import { type SavedMapping, type SaveMappingRequest, savedMappingSchema } from '@/lib/contract/saved-mapping';
import type { TimeFormat } from '@/lib/contract/time-format';
import {
  addMapping,
  findMapping,
  listMappings,
  removeMapping,
  replaceMapping,
  type StoredMapping,
} from '@/lib/store/entities/saved-mappings';
import { changing } from './changing';
import type { Context } from './context';

/** Every saved mapping, by name. */
export async function savedMappings(context: Context): Promise<{ mappings: SavedMapping[] }> {
  return { mappings: (await listMappings(context.store.entities)).map(shown) };
}

/** @throws AppError 'not-found' naming those there are */
export async function savedMapping(context: Context, name: string): Promise<SavedMapping> {
  const { entities } = context.store;
  const known = await findMapping(entities, name);
  return known === null ? noMapping(context, name) : shown(known);
}

/** What a request says of a file's columns; how times are written, where it says so, stands above the mapping. */
export type MappingRequest = {
  mapping: Mapping | null;
  mappingName: string | null;
  timeFormat?: TimeFormat | null;
};

/**
 * The mapping a request states, or the saved one it names; null for neither.
 *
 * @throws AppError 'not-found'; 'invalid-input' where it does both
 */
export async function mappingOf(
  context: Context,
  { mapping, mappingName, timeFormat = null }: MappingRequest,
): Promise<Mapping | null> {
  if (mappingName === null) return withTimeFormat(mapping, timeFormat);
  if (mapping === null) return withTimeFormat((await savedMapping(context, mappingName)).mapping, timeFormat);
  throw new AppError('invalid-input', 'A mapping was sent and one was named', [
    { field: 'mappingName', message: 'send either the mapping itself or the name of a saved one' },
  ]);
}

/**
 * Keeps a mapping by name: a new one where `revision` is null, else a change of that revision. The change record has it as it
 * stood before and after.
 *
 * @throws AppError 'conflict' where somebody else added, changed or deleted it in the meantime
 */
export async function saveMapping(
  context: Context,
  name: string,
  { mapping, revision }: SaveMappingRequest,
): Promise<SavedMapping> {
  await changing(context, null, async ({ transaction, record, by, at }) => {
    const before = await findMapping(transaction, name);
    if ((before?.revision ?? null) !== revision) throw changedMeanwhile(name, before, revision);
    const changed = { name, mapping, changedAt: at, changedBy: by };
    if (before === null) await addMapping(transaction, changed);
    else if (!(await replaceMapping(transaction, { ...changed, revision: before.revision })))
      throw changedMeanwhile(name, before, revision);
    const action = before === null ? 'added' : 'changed';
    await record({ subject: 'mapping', name, action, before: before?.mapping ?? null, after: mapping });
  });
  return savedMapping(context, name);
}

/**
 * Deletes a mapping as it stood at `revision`; the change record keeps it.
 *
 * @throws AppError 'not-found' or 'conflict'
 */
export async function deleteMapping(context: Context, name: string, revision: number): Promise<void> {
  await savedMapping(context, name);
  await changing(context, null, async ({ transaction, record }) => {
    const before = await findMapping(transaction, name);
    if (!(await removeMapping(transaction, name, revision))) throw changedMeanwhile(name, before, revision);
    await record({ subject: 'mapping', name, action: 'withdrawn', before: before?.mapping, after: null });
  });
}

function shown({ name, mapping, revision, changedAt, changedBy }: StoredMapping): SavedMapping {
  return savedMappingSchema.parse({
    name,
    mapping,
    revision,
    changedBy,
    changedAt: new Date(changedAt).toISOString(),
  });
}

async function noMapping(context: Context, name: string): Promise<never> {
  const names = (await listMappings(context.store.entities)).map((known) => `"${known.name}"`);
  throw new AppError('not-found', `There is no saved mapping "${name}"`, [
    { field: 'mapping', message: `use one that is saved: ${names.join(', ') || 'there is none yet'}` },
  ]);
}

function changedMeanwhile(name: string, now: StoredMapping | null, revision: number | null): AppError {
  const who = now === null ? '' : `, by ${now.changedBy} at ${new Date(now.changedAt).toISOString()}`;
  const what =
    now === null
      ? 'was deleted in the meantime'
      : revision === null
        ? `is taken${who}`
        : `was changed in the meantime${who}`;
  const remedy =
    now === null ? 'save it as a new one' : 'load it again and change that, or choose another name';
  return new AppError('conflict', `The mapping "${name}" ${what}`, [
    { field: 'revision', message: `${remedy} (it is at revision ${now?.revision ?? 'none'})` },
  ]);
}
