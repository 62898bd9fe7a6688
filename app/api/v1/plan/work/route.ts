import { readQuery, respond } from '@/app/api/respond';
import { workQuerySchema } from '@/lib/contract/planned';
import { exportWorkList } from '@/lib/work/export-work-list';
import { showWorkList } from '@/lib/work/read-work-list';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

/** Dated work out of accepted plans; `format` ics, csv or xlsx as a file. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const { format } = readQuery(request, workQuerySchema);
    if (format === 'json') return showWorkList(context);
    const { content, type } = await exportWorkList(context, format);
    return new Response(content, {
      headers: {
        'Cache-Control': 'no-store',
        'Content-Type': type,
        'Content-Disposition': `attachment; filename="cleanby-work-list.${format}"`,
      },
    });
  });
}
