import { readingsBody } from '@/app/api/body';
import { importLines, wantsLines } from '@/app/api/import-stream';
import { readQuery, respond } from '@/app/api/respond';
import { importQuerySchema } from '@/lib/contract/import-request';
import { latestBatches } from '@/lib/work/import-batches';
import { mappingOf } from '@/lib/work/saved-mappings';
import { receiveUpload } from '@/lib/work/take-upload';

export { DELETE, PATCH, PUT } from '@/app/api/other-methods';

/** The latest imports, newest first. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) => latestBatches(context));
}

/**
 * Takes the body as a file of readings and answers with the import report; `check=1` stores nothing. Progress comes line by line
 * where application/x-ndjson is accepted.
 */
export function POST(request: Request): Promise<Response> {
  return respond(request, async (context, asked) => {
    const { cut: _, ...query } = readQuery(request, importQuerySchema);
    const mapping = await mappingOf(context, query);
    const received = await receiveUpload(context, { ...query, mapping }, readingsBody(request));
    return wantsLines(request) ? importLines(received, asked) : received.take({ signal: request.signal });
  });
}
