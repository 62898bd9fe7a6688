import { ROUTE_RULES } from '@/lib/auth/rules';
import { SCOPE_WORDS } from '@/lib/auth/scope-words';
import { OPERATIONS } from '@/lib/contract/api/all-operations';
import { type OpenApi, openApi } from '@/lib/report/api/open-api';

let made: OpenApi | null = null;

/** The HTTP API as an OpenAPI 3.1 document: the operations, and who may according to the policy. */
export function describeApi(): OpenApi {
  made ??= openApi({ operations: OPERATIONS, rules: ROUTE_RULES, rights: SCOPE_WORDS });
  return made;
}
