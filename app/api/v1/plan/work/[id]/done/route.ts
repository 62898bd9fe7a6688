import { workRoute } from '@/app/api/work-route';
import { workDoneSchema } from '@/lib/contract/planned';
import { takeWorkDone } from '@/lib/work/finish-planned';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

/** Marks planned work done: the cleaning is recorded with it. */
export const POST = workRoute(workDoneSchema, takeWorkDone);
