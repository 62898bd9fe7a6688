import { batchOf, respond } from '@/app/api/respond';
import { undoImport } from '@/lib/work/import-batches';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

type Segments = { params: Promise<{ batch: string }> };

/** Takes an import back and brings the results up to date. */
export function POST(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => undoImport(context, batchOf(await params)));
}
