import { respond } from '@/app/api/respond';
import { savedMappings } from '@/lib/work/saved-mappings';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

/** Every saved mapping, by name. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) => savedMappings(context));
}
