import { mayReadOfPeople } from '@/app/access/may-read-of-people';
import { csvFile } from '@/app/api/in-format';
import { readQuery, respond } from '@/app/api/respond';
import { changesQuerySchema } from '@/lib/contract/changes';
import { exportChanges, showChanges } from '@/lib/work/read-changes';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

/** Who changed what and when, the newest first, a page at a time; `format=csv` gives all of them as rows. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const query = readQuery(request, changesQuerySchema);
    const reader = { seesPeople: await mayReadOfPeople(context, request.headers) };
    if (query.format !== 'csv') return showChanges(context, query, reader);
    return csvFile('changes', await exportChanges(context, query, reader));
  });
}
