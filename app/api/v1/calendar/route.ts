import { readJson } from '@/app/api/body';
import { respond } from '@/app/api/respond';
import { saveCalendar } from '@/lib/work/save-calendar';

export { DELETE, GET, PATCH, POST } from '@/app/api/other-methods';

/** Puts a site's calendar in the place of the one before. */
export function PUT(request: Request): Promise<Response> {
  return respond(request, async (context) => saveCalendar(context, await readJson(request)));
}
