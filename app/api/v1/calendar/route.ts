import { readJson } from '@/app/api/body';
import { respond } from '@/app/api/respond';
import { openContext } from '@/lib/work/context';
import { saveCalendar } from '@/lib/work/save-calendar';

/** Puts a site's calendar in the place of the one before. */
export function PUT(request: Request): Promise<Response> {
  return respond(request, async () => saveCalendar(await openContext(), await readJson(request)));
}
