import { readJson } from '@/app/api/body';
import { refusal, respond } from '@/app/api/respond';
import { AppError } from '@/lib/contract/app-error';
import { openContext } from '@/lib/work/context';
import { listRegistered } from '@/lib/work/list-registered';
import { previewUnit } from '@/lib/work/preview-unit';
import { saveUnit } from '@/lib/work/save-unit';

/** Every registered unit with its datasheet. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async () => listRegistered(await openContext()));
}

/** Adds or updates one unit, `{ site, unit, version }`; `check=1` says what it would say and stores nothing. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async () => {
    const document = await readJson(request);
    if (new URL(request.url).searchParams.get('check') !== '1') return saveUnit(await openContext(), document);
    const { faults, figures } = await previewUnit(await openContext(), document);
    if (faults.length === 0) return { errors: [], figures };
    return refusal(new AppError('invalid-input', 'The unit could not be saved like this', faults), { figures });
  });
}
