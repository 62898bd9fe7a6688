import type { AppError } from '@/lib/contract/app-error';
import { actingAs, closeContext, openContext } from '@/lib/work/context';
import { listRegistered } from '@/lib/work/list-registered';
import { saveUnit } from '@/lib/work/save-unit';

/**
 * A person in a process of their own who edits the datasheet of one unit over and over, each time from what stands: prints what
 * was acknowledged and how often somebody else was faster. Arguments: database, name, edits.
 */
const [url, name, edits] = process.argv.slice(2) as [string, string, string];
const opened = await openContext(url);
const context = actingAs(opened, { kind: 'person', id: name, name });
const acknowledged: string[] = [];
const refused: string[] = [];
for (let edit = 0; acknowledged.length < Number(edits); edit++) {
  const { site, unit, version } = (await listRegistered(context)).units[0]!;
  const service = `edit ${edit} of ${name}`;
  try {
    await saveUnit(context, { site, unit: { ...unit, service }, version });
    acknowledged.push(service);
  } catch (error) {
    if ((error as AppError).code !== 'conflict') throw error;
    refused.push((error as AppError).message);
  }
}
await closeContext(opened);
process.stdout.write(JSON.stringify({ acknowledged, refused }));
