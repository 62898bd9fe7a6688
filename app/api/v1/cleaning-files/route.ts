import { bodyBytes } from '@/app/api/body';
import { readQuery, respond } from '@/app/api/respond';
import { cleaningFileQuerySchema, LARGEST_KEPT_FILE } from '@/lib/contract/cleaning-files';
import { keepCleaningFile } from '@/lib/work/keep-cleaning-file';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

const SMALLER_FILE = 'make the photograph smaller, or split the report';

/** Keeps the file sent as the body with a recorded cleaning. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const query = readQuery(request, cleaningFileQuerySchema);
    const pieces: Uint8Array[] = [];
    for await (const piece of bodyBytes(request, LARGEST_KEPT_FILE, SMALLER_FILE)) pieces.push(piece);
    return keepCleaningFile(context, query, new Uint8Array(Buffer.concat(pieces)));
  });
}
