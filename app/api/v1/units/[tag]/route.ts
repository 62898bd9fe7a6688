import { respond, tagOf } from '@/app/api/respond';
import { showUnit } from '@/lib/work/show-results';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

type Segments = { params: Promise<{ tag: string }> };

/** The last result of a unit. */
export function GET(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => showUnit(context, tagOf(await params)));
}
