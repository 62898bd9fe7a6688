import { inFormat } from '@/app/api/in-format';
import { batchOf, readQuery, respond } from '@/app/api/respond';
import { replacedQuerySchema } from '@/lib/contract/replaced-readings';
import { replacedCsv } from '@/lib/report/import/replaced-csv';
import { showReplaced } from '@/lib/work/read-replaced';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

type Segments = { params: Promise<{ batch: string }> };

/** Values that an import replaced, each as it was before and after; `format=csv` as rows. */
export function GET(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => {
    readQuery(request, replacedQuerySchema);
    const document = await showReplaced(context, batchOf(await params));
    return inFormat(request, document, { name: `replaced-${document.batch}`, csv: replacedCsv });
  });
}
