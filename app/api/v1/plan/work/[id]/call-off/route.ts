import { workRoute } from '@/app/api/work-route';
import { workCallOffSchema } from '@/lib/contract/planned';
import { callOffPlanned } from '@/lib/work/call-off-planned';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

/** Calls planned work off; it is kept. */
export const POST = workRoute(workCallOffSchema, callOffPlanned);
