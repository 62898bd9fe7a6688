import { readJson } from '@/app/api/body';
import { numberOf, parse, respond, tagOf } from '@/app/api/respond';
import { sentCorrectionSchema } from '@/lib/contract/cleaning-request';
import { takeCleaningCorrection } from '@/lib/work/correct-cleaning';

export { DELETE, GET, POST, PUT } from '@/app/api/other-methods';

type Segments = { params: Promise<{ tag: string; id: string }> };

/** Corrects a recorded cleaning: what is left out stays. Answers with all of them. */
export function PATCH(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => {
    const segments = await params;
    const id = numberOf(segments.id, 'cleaning');
    const correction = parse(await readJson(request), sentCorrectionSchema);
    return takeCleaningCorrection(context, tagOf(segments), { ...correction, id });
  });
}
