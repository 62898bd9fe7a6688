import type { z } from 'zod';
import type { Context } from '@/lib/work/context';
import { showWorkList } from '@/lib/work/read-work-list';
import { readJson } from './body';
import { numberOf, parse, respond } from './respond';

type Segments = { params: Promise<{ id: string }> };

/** The handler that changes a piece of planned work by its number; it answers with what that gave and the work list. */
export function workRoute<Schema extends z.ZodType>(
  schema: Schema,
  change: (context: Context, id: number, asked: z.output<Schema>) => Promise<object>,
) {
  return (request: Request, { params }: Segments): Promise<Response> =>
    respond(request, async (context) => {
      const id = numberOf((await params).id, 'planned work');
      const asked = parse(await readJson(request), schema);
      const given = await change(context, id, asked);
      return { ...given, ...(await showWorkList(context)) };
    });
}
