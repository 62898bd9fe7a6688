import type { Right } from './rights';

/** Who may come in: anyone at all, anyone signed in, or whoever has the right. */
export type Rule = 'anyone' | 'signed-in' | Right;

/** Every route of the HTTP interface, by method and path as the folders of `app` name it. What is not here is refused. */
export const ROUTE_RULES: Record<string, Rule> = {
  'GET /api/fleet/rows': 'look',
  'GET /api/health': 'anyone',
  'GET /api/units/[tag]/charts': 'look',
  'PUT /api/v1/calendar': 'plan',
  'POST /api/v1/cleaning-files': 'clean',
  'GET /api/v1/cleaning-files/[id]': 'look',
  'GET /api/v1/changes': 'changes',
  'GET /api/v1/cleanings': 'look',
  'GET /api/v1/costs': 'look',
  'POST /api/v1/evaluate': 'look',
  'GET /api/v1/fleet': 'look',
  'POST /api/v1/fleet': 'describe',
  'GET /api/v1/health': 'look',
  'GET /api/v1/imports': 'look',
  'POST /api/v1/imports': 'import',
  'GET /api/v1/imports/[batch]/replaced': 'look',
  'GET /api/v1/imports/[batch]/set-aside': 'look',
  'POST /api/v1/imports/[batch]/undo': 'import',
  'GET /api/v1/imports/[batch]/undo-preview': 'import',
  'POST /api/v1/imports/preview': 'import',
  'GET /api/v1/mappings': 'look',
  'GET /api/v1/mappings/[name]': 'look',
  'PUT /api/v1/mappings/[name]': 'import',
  'DELETE /api/v1/mappings/[name]': 'import',
  'POST /api/v1/plan': 'look',
  'POST /api/v1/plan/accept': 'plan',
  'GET /api/v1/plan/work': 'look',
  'POST /api/v1/plan/work/[id]/call-off': 'plan',
  'POST /api/v1/plan/work/[id]/done': 'clean',
  'POST /api/v1/plan/work/[id]/link': 'clean',
  'POST /api/v1/plan/work/[id]/move': 'plan',
  'GET /api/v1/prices': 'look',
  'POST /api/v1/prices': 'price',
  'GET /api/v1/openapi.json': 'anyone',
  'GET /api/v1/record': 'look',
  'GET /api/v1/review': 'look',
  'POST /api/v1/review/marks': 'review',
  'GET /api/v1/units': 'look',
  'POST /api/v1/units': 'describe',
  'GET /api/v1/units/[tag]': 'look',
  'GET /api/v1/units/[tag]/cleanings': 'look',
  'POST /api/v1/units/[tag]/cleanings': 'clean',
  'PATCH /api/v1/units/[tag]/cleanings/[id]': 'clean',
  'POST /api/v1/units/[tag]/cleanings/[id]/withdraw': 'clean',
  'GET /api/v1/units/[tag]/daily': 'look',
  'GET /api/v1/units/[tag]/falls': 'look',
  'POST /api/v1/units/[tag]/falls': 'judge',
  'POST /api/v1/units/[tag]/falls/[id]/withdraw': 'judge',
  'GET /api/v1/units/[tag]/references': 'look',
  'POST /api/v1/units/[tag]/references': 'describe',
  'GET /api/v1/units/[tag]/verdicts': 'look',
  'POST /api/v1/units/[tag]/verdicts': 'judge',
  'POST /api/v1/units/[tag]/verdicts/[id]/withdraw': 'judge',
  'GET /sign-in/provider': 'anyone',
  'GET /sign-in/provider/callback': 'anyone',
};

/** Every page, by its path. */
export const PAGE_RULES = {
  '/': 'look',
  '/changes': 'changes',
  '/cleanings': 'look',
  '/energy': 'look',
  '/energy/month': 'look',
  '/energy/prices': 'look',
  '/fleet-sheet': 'describe',
  '/health': 'look',
  '/import': 'import',
  '/import/[batch]/replaced': 'look',
  '/import/mappings/[name]': 'import',
  '/new-unit': 'describe',
  '/plan': 'look',
  '/plan/work': 'look',
  '/plan/work/print': 'look',
  '/record': 'look',
  '/review': 'look',
  '/units/[tag]': 'look',
  '/units/[tag]/cost': 'look',
  '/units/[tag]/reference': 'look',
  '/units/[tag]/setup': 'look',
  '/units/[tag]/spot-check': 'look',
  '/sign-in': 'anyone',
  '/first-run': 'anyone',
  '/invitation': 'anyone',
  '/account': 'signed-in',
  '/people': 'people',
  '/tokens': 'tokens',
  '/api-reference': 'look',
} as const satisfies Record<string, Rule>;

/** Every action that a form of a page calls, by the name of its function. */
export const ACTION_RULES = {
  acceptReferenceAction: 'describe',
  answerFallAction: 'judge',
  callOffWorkAction: 'plan',
  correctCleaningAction: 'clean',
  finishWorkAction: 'clean',
  fluidCurvesAction: 'look',
  judgePeriodAction: 'judge',
  linkWorkAction: 'clean',
  markLineAction: 'review',
  moveWorkAction: 'plan',
  readRowsAction: 'look',
  recordCleaningAction: 'clean',
  recordPriceAction: 'price',
  withdrawCleaningAction: 'clean',
  withdrawJudgementAction: 'judge',
  openDemoAction: 'anyone',
  signInAction: 'anyone',
  signOutAction: 'anyone',
  startFirstAction: 'anyone',
  readInvitationAction: 'anyone',
  acceptInvitationAction: 'anyone',
  renameSelfAction: 'signed-in',
  changePasswordAction: 'signed-in',
  endSessionAction: 'signed-in',
  endOtherSessionsAction: 'signed-in',
  changePersonAction: 'people',
  inviteAction: 'people',
  withdrawInvitationAction: 'people',
  makeTokenAction: 'tokens',
  withdrawTokenAction: 'tokens',
} as const satisfies Record<string, Rule>;

export type PagePath = keyof typeof PAGE_RULES;
export type ActionName = keyof typeof ACTION_RULES;

/** The rule of a request; null where no route of that method has such a path. */
export function routeRule(method: string, path: string): Rule | null {
  const key = routeKey(method, path);
  return key === null ? null : (ROUTE_RULES as Record<string, Rule>)[key]!;
}

/** The route that a request is for, as the table names it; null where there is none. */
export function routeKey(method: string, path: string): string | null {
  const asked = path.split('/');
  // HEAD asks for what GET gives, without the body.
  const verb = method === 'HEAD' ? 'GET' : method;
  for (const key of Object.keys(ROUTE_RULES)) {
    const [known, pattern] = key.split(' ') as [string, string];
    if (known === verb && fits(pattern.split('/'), asked)) return key;
  }
  return null;
}

/** The rule of a page by the path asked for; null where there is no such page. */
export function pageRule(path: string): Rule | null {
  const asked = path.split('/');
  const found = Object.entries(PAGE_RULES).find(([pattern]) => fits(pattern.split('/'), asked));
  return found?.[1] ?? null;
}

/** `[tag]` stands for any one segment, `[...rest]` for one or more. Fixed segments come before them in the table. */
function fits(pattern: string[], asked: string[]): boolean {
  if (pattern.at(-1)?.startsWith('[...') === true) {
    const fixed = pattern.slice(0, -1);
    return asked.length > fixed.length && fits(fixed, asked.slice(0, fixed.length));
  }
  return (
    pattern.length === asked.length &&
    pattern.every((part, i) => (part.startsWith('[') ? asked[i] !== '' : part === asked[i]))
  );
}
