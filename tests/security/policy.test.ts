import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { isOtherMethod } from '@/app/api/other-methods';
import { ACTION_RULES, PAGE_RULES, ROUTE_RULES } from '@/lib/auth/rules';
import { log } from '@/lib/work/log';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { type Caller, makeCallers, makePrograms, personOf } from './callers';
import { RoleTable, TABLE_FILE, type Verdict, writeTable } from './role-table';
import {
  asked,
  hiddenActions,
  type WalkedAction,
  type WalkedPage,
  type WalkedRoute,
  walkActions,
  walkPages,
  walkRoutes,
} from './walk-router';

/** What the framework would hand over of the request under way. */
let sent = new Headers();
vi.mock('next/headers', () => ({
  headers: async () => sent,
  cookies: async () => ({
    get: () => undefined,
    getAll: () => [],
    has: () => false,
    set() {},
    delete() {},
    toString: () => sent.get('cookie') ?? '',
  }),
}));
vi.mock('next/cache', () => ({ revalidatePath() {}, revalidateTag() {}, refresh() {} }));

const HOST = 'localhost:4000';

let database: TemporaryDatabase;
let routes: WalkedRoute[];
let pages: WalkedPage[];
let actions: WalkedAction[];

beforeAll(async () => {
  database = await temporaryDatabase();
  process.env.DATABASE_URL = database.url;
  process.env.CLEANBY_LIMITS = LIMITS;
  log.level = 'silent';
  // As `authInterrupts` of next.config.mjs sets it.
  process.env.__NEXT_EXPERIMENTAL_AUTH_INTERRUPTS = 'true';
  [routes, pages, actions] = await Promise.all([walkRoutes(isOtherMethod), walkPages(), walkActions()]);
}, 300_000);
afterAll(async () => {
  delete process.env.CLEANBY_LIMITS;
  await database.remove();
});

const LIMITS = ['address', 'token', 'expensive', 'sign-in', 'wrong-token', 'imports']
  .map((name) => `${name}=1000000`)
  .join(',');

describe('every way into the server has exactly one rule', () => {
  it('each handler of each route file, and no rule is left over', () => {
    expect(routes.map(({ key }) => key).sort()).toEqual(Object.keys(ROUTE_RULES).sort());
  });

  it('each page, and no rule is left over', () => {
    expect(pages.map(({ path }) => path).sort()).toEqual(Object.keys(PAGE_RULES).sort());
  });

  it('each function that a file marked for the browser exports, and no rule is left over', () => {
    expect(actions.map(({ name }) => name).sort()).toEqual(Object.keys(ACTION_RULES).sort());
  });

  it('no function is marked for the browser within a file, where it would have no name', () => {
    expect(hiddenActions()).toEqual([]);
  });

  it('the committed table says what the policy says', async () => {
    await expect(writeTable()).toMatchFileSnapshot(TABLE_FILE);
  });
});

/** Compares what everybody is answered with the committed table; gives every difference. */
async function differences(
  names: string[],
  answer: (name: string, caller: Caller) => Promise<Verdict>,
): Promise<string[]> {
  const table = new RoleTable();
  const found: string[] = [];
  const programs = await makePrograms(database.context);
  let callers = await makeCallers(database.context, programs);
  for (const name of names) {
    // An action may sign out whoever calls it.
    if (name.endsWith('Action')) callers = await makeCallers(database.context, programs);
    for (const caller of callers) {
      const isStranger = caller.column === 'nobody' && caller.name !== 'nobody';
      const expected = table.answersTo(name, caller.column, isStranger);
      const given = await answer(name, caller);
      if (!expected.includes(given)) found.push(`${name}, ${caller.name}: ${given}, not ${expected}`);
    }
  }
  return found;
}

describe('everybody is answered as the table says', () => {
  it('by every route and method', async () => {
    const byKey = new Map(routes.map((route) => [route.key, route]));
    const given = await differences([...byKey.keys()], (key, caller) => askRoute(byKey.get(key)!, caller));
    expect(given).toEqual([]);
  }, 300_000);

  it('by every page', async () => {
    const byPath = new Map(pages.map((page) => [page.path, page]));
    const given = await differences([...byPath.keys()], (path, caller) => askPage(byPath.get(path)!, caller));
    expect(given).toEqual([]);
  }, 300_000);

  it('by every action', async () => {
    const byName = new Map(actions.map((action) => [action.name, action]));
    const given = await differences([...byName.keys()], (name, caller) =>
      askAction(byName.get(name)!, caller),
    );
    expect(given).toEqual([]);
  }, 300_000);
});

describe('from elsewhere nobody gets in, whoever it is', () => {
  it.each([
    ['under a foreign name', { host: 'rebound.example' }],
    [
      'from the page of another site',
      { origin: 'https://elsewhere.example', 'sec-fetch-site': 'cross-site' },
    ],
  ])('%s, by any route', async (_, foreign: Record<string, string>) => {
    const administrator = await personOf(database.context.store, 'administrator');
    const open: string[] = [];
    // Monitors ask for health by address, and learn nothing of the plant; what is not under /api passes proxy.ts first.
    const guarded = routes.filter(({ path }) => path.startsWith('/api/') && path !== '/api/health');
    for (const route of guarded) {
      const headers = { ...administrator.headers, ...foreign };
      if ((await askRoute(route, { ...administrator, headers })) !== '403') open.push(route.key);
    }
    expect(open).toEqual([]);
  });
});

/** The work behind is not asked to succeed: whoever is let in learns what is wrong with the body. */
async function askRoute({ method, path, handler }: WalkedRoute, caller: Caller): Promise<Verdict> {
  const { address, params } = asked(path);
  const hasBody = method !== 'GET' && method !== 'HEAD';
  const request = new Request(`http://${HOST}${address}`, {
    method,
    headers: { host: HOST, ...(hasBody ? { 'content-type': 'application/json' } : {}), ...caller.headers },
    body: hasBody ? '{}' : null,
  });
  const response = (await handler(request, { params: Promise.resolve(params) })) as Response;
  await response.body?.cancel();
  if (response.status >= 500) throw new Error(`${method} ${path} fails for ${caller.name}`);
  return response.status === 401 || response.status === 403 ? `${response.status}` : 'in';
}

async function askPage({ path, page }: WalkedPage, caller: Caller): Promise<Verdict> {
  const { params } = asked(path);
  sent = new Headers({ host: HOST, ...caller.headers });
  try {
    await page({ params: Promise.resolve(params), searchParams: Promise.resolve({}) });
    return 'in';
  } catch (error) {
    return isRedirect(error) && LEADING_OUT.includes(path) ? 'in' : verdictOf(error);
  }
}

async function askAction({ name, action }: WalkedAction, caller: Caller): Promise<Verdict> {
  sent = new Headers({ host: HOST, ...caller.headers });
  const form = new FormData();
  try {
    const outcome = await (action.length > 1 ? action({ kind: 'none' }, form) : action(form));
    return verdictOf(outcome);
  } catch (error) {
    return isRedirect(error) && LEADING_OUT.includes(name) ? 'in' : verdictOf(error);
  }
}

/** What leads anybody to the page to sign in: signing out, and a first run that has been. */
const LEADING_OUT = ['signOutAction', '/first-run'];

function isRedirect(error: unknown): boolean {
  return String((error as { digest?: string }).digest).startsWith('NEXT_REDIRECT');
}

/** What was thrown, or told to a form: whether that was for who asked, or for something else. */
function verdictOf(outcome: unknown): Verdict {
  const digest = String((outcome as { digest?: string } | undefined)?.digest ?? '');
  if (digest === 'NEXT_HTTP_ERROR_FALLBACK;403') return '403';
  if (digest.startsWith('NEXT_REDIRECT')) {
    return /;\/sign-in[;?]/.test(digest) ? '401' : 'in';
  }
  // By the words of the policy itself: an action that anyone may call can have reasons of its own to refuse.
  const told = `${(outcome as Error | undefined)?.message ?? ''} ${JSON.stringify(outcome ?? {})}`;
  if (/Sign in, or send a token|sign in on the page|The token |with a token that holds/.test(told))
    return '401';
  return /may not do this|it needs the right/.test(told) ? '403' : 'in';
}
