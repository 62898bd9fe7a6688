import { readJson } from '@/app/api/body';
import { parse, respond, tagOf } from '@/app/api/respond';
import { cleaningRequestSchema } from '@/lib/contract/cleaning-request';
import { showCleanings } from '@/lib/work/read-cleanings';
import { reportCleaning } from '@/lib/work/report-cleaning';

export { DELETE, PATCH, PUT } from '@/app/api/other-methods';

type Segments = { params: Promise<{ tag: string }> };

/** The recorded cleanings of a unit, and what was corrected or withdrawn. */
export function GET(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => showCleanings(context, tagOf(await params)));
}

/** Records a cleaning of a unit and answers with its new result. */
export function POST(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => {
    const cleaning = parse(await readJson(request), cleaningRequestSchema);
    return reportCleaning(context, tagOf(await params), cleaning);
  });
}
