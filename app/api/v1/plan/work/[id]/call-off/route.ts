import { workRoute } from '@/app/api/work-route';
import { workCallOffSchema } from '@/lib/contract/planned';
import { callOffPlanned } from '@/lib/work/call-off-planned';

/** Calls planned work off; it is kept. */
export const POST = workRoute(workCallOffSchema, callOffPlanned);
