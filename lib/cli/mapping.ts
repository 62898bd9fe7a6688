import type { Command } from 'commander';
import { mappingNameSchema } from '@/lib/contract/saved-mapping';
import { SENSOR_WORDS } from '@/lib/contract/sensor-words';
import { deleteMapping, savedMapping, savedMappings, saveMapping } from '@/lib/work/saved-mappings';
import { readMappingFile } from './mapping-file';
import { message, type OutputOptions, print } from './output';
import { numberOrNull, stated } from './stated';
import { withContext } from './with-context';

export function addMapping(program: Command): void {
  const mapping = program
    .command('mapping')
    .description('saved mappings: how the columns of the plant’s files belong to units');
  mapping.command('list').option('--json').option('--csv').description('every saved mapping').action(list);
  mapping
    .command('show')
    .argument('<name>')
    .option('--json', 'print it as `mapping save` reads it, with its revision')
    .option('--csv')
    .description('what a mapping says of each column')
    .action(show);
  mapping
    .command('save')
    .argument('<name>')
    .argument('<file>', 'the mapping as JSON')
    .option('--revision <number>', 'refuse where it is no longer this one')
    .description('keeps a mapping by name, or changes it')
    .action(save);
  mapping
    .command('delete')
    .argument('<name>')
    .option('--revision <number>', 'refuse where it is no longer this one')
    .description('deletes a mapping; the record of changes keeps it')
    .action(remove);
}

async function list(options: OutputOptions): Promise<void> {
  const { mappings } = await withContext(savedMappings);
  const rows = mappings.map(({ name, mapping, revision, changedAt, changedBy }) => {
    const sensors = Object.values(mapping.sensors);
    const read = sensors.filter((sensor) => sensor !== null).length;
    return [name, read, sensors.length - read, revision, changedAt, changedBy];
  });
  const columns = ['name', 'columns', 'skipped', 'revision', 'changed', 'by'];
  print(options, { document: { mappings }, table: { columns, rows } });
}

async function show(name: string, options: OutputOptions): Promise<void> {
  const saved = await withContext((context) => savedMapping(context, name));
  const rows = Object.entries(saved.mapping.sensors).map(([column, sensor]) =>
    sensor === null
      ? [column, null, 'skipped', null]
      : [column, sensor.tag, SENSOR_WORDS[sensor.sensor], sensor.unit],
  );
  const columns = ['column', 'unit', 'sensor', 'unit of measure'];
  print(options, { document: saved, table: { columns, rows } });
}

type Revision = { revision?: string };

async function save(name: string, path: string, { revision }: Revision): Promise<void> {
  const checked = stated(mappingNameSchema, name);
  const mapping = await readMappingFile(path);
  const saved = await withContext(async (context) => {
    const known = (await savedMappings(context)).mappings.find((each) => each.name === checked);
    const edited = numberOrNull(revision) ?? known?.revision ?? null;
    return saveMapping(context, checked, { mapping, revision: edited });
  });
  message(`saved "${saved.name}", revision ${saved.revision}`);
}

async function remove(name: string, { revision }: Revision): Promise<void> {
  await withContext(async (context) => {
    const known = await savedMapping(context, name);
    await deleteMapping(context, name, numberOrNull(revision) ?? known.revision);
  });
  message(`deleted "${name}"; the record of changes keeps it`);
}
