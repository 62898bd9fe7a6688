import { type Withdrawal, withdrawalSchema } from '@/lib/contract/withdrawal';
import type { Context } from '@/lib/work/context';
import { readJson } from './body';
import { numberOf, parse, respond, tagOf } from './respond';

type Segments = { params: Promise<{ tag: string; id: string }> };
type Withdraw = (context: Context, tag: string, withdrawal: Withdrawal & { id: number }) => Promise<unknown>;

/** The handler that withdraws some thing a person stated of a unit, by its number. */
export function withdrawalRoute(thing: string, withdraw: Withdraw) {
  return (request: Request, { params }: Segments): Promise<Response> =>
    respond(request, async (context) => {
      const segments = await params;
      const id = numberOf(segments.id, thing);
      const withdrawal = parse(await readJson(request), withdrawalSchema);
      return withdraw(context, tagOf(segments), { ...withdrawal, id });
    });
}
