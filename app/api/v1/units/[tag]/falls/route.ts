import { readJson } from '@/app/api/body';
import { parse, respond, tagOf } from '@/app/api/respond';
import { fallAnswerRequestSchema } from '@/lib/contract/fall-answers';
import { takeFallAnswer } from '@/lib/work/answer-fall';
import { showFalls } from '@/lib/work/read-falls';

export { DELETE, PATCH, PUT } from '@/app/api/other-methods';

type Segments = { params: Promise<{ tag: string }> };

/** Probable cleanings of a unit that wait for an answer, and every answer given. */
export function GET(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => showFalls(context, tagOf(await params)));
}

/** Says whether a fall of the fouling was a cleaning, and answers with all falls. */
export function POST(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => {
    const answer = parse(await readJson(request), fallAnswerRequestSchema);
    return takeFallAnswer(context, tagOf(await params), answer);
  });
}
