import { batchOf, respond } from '@/app/api/respond';
import { setAsideCsv } from '@/lib/report/import/set-aside-csv';
import { rowsSetAside } from '@/lib/work/import-batches';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

type Segments = { params: Promise<{ batch: string }> };

/** Rows of an import that were kept aside; `format=csv` as a file to mend and import again. */
export function GET(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => {
    const answer = await rowsSetAside(context, batchOf(await params));
    return new URL(request.url).searchParams.get('format') === 'csv' ? asFile(answer) : answer;
  });
}

function asFile(answer: Awaited<ReturnType<typeof rowsSetAside>>): Response {
  return new Response(setAsideCsv(answer.rows), {
    headers: {
      'Cache-Control': 'no-store',
      'Content-Type': 'text/csv; charset=utf-8',
      'Content-Disposition': `attachment; filename="kept-aside-${answer.batch}.csv"`,
    },
  });
}
