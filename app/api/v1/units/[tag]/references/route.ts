import { readJson } from '@/app/api/body';
import { parse, respond, tagOf } from '@/app/api/respond';
import { referenceAcceptanceSchema, referenceProposalSchema } from '@/lib/contract/clean-references';
import { takeReference } from '@/lib/work/accept-reference';
import { previewReference, showReferences } from '@/lib/work/read-reference';

export { DELETE, PATCH, PUT } from '@/app/api/other-methods';

type Segments = { params: Promise<{ tag: string }> };

/** Every clean reference a unit ever had, and what its results were judged by. */
export function GET(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => showReferences(context, tagOf(await params)));
}

/** Accepts a clean reference and answers with all of them; with `?check=1` only says what it would be, and change. */
export function POST(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => {
    const tag = tagOf(await params);
    const document = await readJson(request);
    return new URL(request.url).searchParams.get('check') === '1'
      ? previewReference(context, tag, parse(document, referenceProposalSchema))
      : takeReference(context, tag, parse(document, referenceAcceptanceSchema));
  });
}
