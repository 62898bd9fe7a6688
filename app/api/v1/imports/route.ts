import { bodyBytes } from '@/app/api/body';
import { readQuery, respond } from '@/app/api/respond';
import { importQuerySchema } from '@/lib/contract/import-request';
import { latestBatches } from '@/lib/work/import-batches';
import { takeReadings } from '@/lib/work/take-readings';

/** The latest imports, newest first. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) => latestBatches(context));
}

/** Takes the body as a file of readings and answers with the import report; `check=1` stores nothing. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const { name, timeZone, mapping, check } = readQuery(request, importQuerySchema);
    return takeReadings(context, { name, timeZone, mapping, check, source: bodyBytes(request) });
  });
}
