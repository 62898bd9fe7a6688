import { readJson } from '@/app/api/body';
import { respond } from '@/app/api/respond';
import { listRegistered } from '@/lib/work/list-registered';
import { previewUnit } from '@/lib/work/preview-unit';
import { saveUnit } from '@/lib/work/save-unit';

export { DELETE, PATCH, PUT } from '@/app/api/other-methods';

/** Every registered unit with its datasheet. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) => listRegistered(context));
}

/** Adds or updates one unit, `{ site, unit, version }`; `check=1` answers with the `errors` it would name and stores nothing. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const isCheck = new URL(request.url).searchParams.get('check') === '1';
    const work = isCheck ? previewUnit : saveUnit;
    return work(context, await readJson(request));
  });
}
