import { workRoute } from '@/app/api/work-route';
import { workLinkSchema } from '@/lib/contract/planned';
import { takeWorkLink } from '@/lib/work/finish-planned';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

/** Says which recorded cleaning planned work was. */
export const POST = workRoute(workLinkSchema, takeWorkLink);
