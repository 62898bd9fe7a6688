import { bodyBytes } from '@/app/api/body';
import { readQuery, respond } from '@/app/api/respond';
import { importQuerySchema } from '@/lib/contract/import-request';
import { previewImport } from '@/lib/work/preview-import';

/** Looks at the body, a file of readings or its beginning (`cut=1`), and stores nothing. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const { name, timeZone, mapping, cut } = readQuery(request, importQuerySchema);
    const source = bodyBytes(request);
    return previewImport(context, { name, timeZone, mapping, isCut: cut, source });
  });
}
