import { workRoute } from '@/app/api/work-route';
import { workDoneSchema } from '@/lib/contract/planned';
import { takeWorkDone } from '@/lib/work/finish-planned';

/** Marks planned work done: the cleaning is recorded with it. */
export const POST = workRoute(workDoneSchema, takeWorkDone);
