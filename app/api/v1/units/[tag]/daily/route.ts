import { respond, tagOf } from '@/app/api/respond';
import { openContext } from '@/lib/work/context';
import { showDaily } from '@/lib/work/show-results';

type Segments = { params: Promise<{ tag: string }> };

/** Daily figures of a unit. */
export function GET(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async () => showDaily(await openContext(), tagOf(await params)));
}
