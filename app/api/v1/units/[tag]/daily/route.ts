import { respond, tagOf } from '@/app/api/respond';
import { showDaily } from '@/lib/work/show-results';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

type Segments = { params: Promise<{ tag: string }> };

/** Daily figures of a unit. */
export function GET(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => showDaily(context, tagOf(await params)));
}
