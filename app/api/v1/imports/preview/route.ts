import { readingsBody } from '@/app/api/body';
import { readQuery, respond } from '@/app/api/respond';
import { takeExpensive } from '@/lib/auth/limits';
import { importQuerySchema } from '@/lib/contract/import-request';
import { previewImport } from '@/lib/work/preview-import';
import { mappingOf } from '@/lib/work/saved-mappings';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

/** Looks at the body, a file of readings or its beginning (`cut=1`), and stores nothing. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    takeExpensive(context.actor);
    const { name, timeZone, cut, ...query } = readQuery(request, importQuerySchema);
    const mapping = await mappingOf(context, query);
    const source = readingsBody(request);
    return previewImport(context, { name, timeZone, mapping, isCut: cut, source });
  });
}
