import { respond } from '@/app/api/respond';
import { describeApi } from '@/lib/work/describe-api';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

/** The HTTP API as an OpenAPI 3.1 document. It tells nothing of the plant, and tools read it without a token. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async () => describeApi());
}
