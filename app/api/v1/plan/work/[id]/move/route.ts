import { workRoute } from '@/app/api/work-route';
import { workMoveSchema } from '@/lib/contract/planned';
import { movePlanned } from '@/lib/work/move-planned';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

/** Moves planned work to another time. */
export const POST = workRoute(workMoveSchema, movePlanned);
