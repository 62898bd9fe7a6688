import { batchOf, respond } from '@/app/api/respond';
import { previewUndo } from '@/lib/work/import-batches';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

type Segments = { params: Promise<{ batch: string }> };

/** What undoing an import would remove, put back and leave alone. */
export function GET(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => previewUndo(context, batchOf(await params)));
}
