import { readJson } from '@/app/api/body';
import { parse, respond, tagOf } from '@/app/api/respond';
import { verdictRequestSchema } from '@/lib/contract/verdicts';
import { takeVerdict } from '@/lib/work/judge-period';
import { showVerdicts } from '@/lib/work/read-verdicts';

export { DELETE, PATCH, PUT } from '@/app/api/other-methods';

type Segments = { params: Promise<{ tag: string }> };

/** Every verdict on readings of a unit, those withdrawn among them. */
export function GET(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => showVerdicts(context, tagOf(await params)));
}

/** Leaves the readings of a period out, or counts them in, and answers with all verdicts. */
export function POST(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => {
    const verdict = parse(await readJson(request), verdictRequestSchema);
    return takeVerdict(context, tagOf(await params), verdict);
  });
}
