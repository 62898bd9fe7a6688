import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { RIGHTS, type Right, ROLES, TOKEN_SCOPES } from '@/lib/auth/rights';
import { ACTION_RULES, PAGE_RULES, ROUTE_RULES, type Rule } from '@/lib/auth/rules';

export const TABLE_FILE = join(import.meta.dirname, 'route-role-table.md');

const COLUMNS = ['nobody', ...ROLES, 'a token with'] as const;

const HEAD = `# Who may do what

What each route, page and action answers to whom: \`in\`, \`401\` (sign in first) or \`403\` (signed in, and not allowed); a
page sends people to sign in, or says that they may not. The last column names the scope that lets a token in; pages and actions
pass tokens over, so that a program is nobody there. One plant is one
database: whoever may see units, batches or files may see all of them, so that no number or tag of another has to be kept from
anyone.

Written from \`lib/auth/rules.ts\` and \`lib/auth/rights.ts\`, so that a change of policy shows in review; the answers of the
running code are compared with this file. After an intended change: \`npx vitest run tests/security/policy.test.ts -u\`.
`;

/** The table as the policy says it. */
export function writeTable(): string {
  const parts = { Routes: ROUTE_RULES, Pages: PAGE_RULES, Actions: ACTION_RULES };
  const sections = Object.entries(parts).map(([title, rules]) => section(title, rules));
  return `${[HEAD, ...sections].join('\n')}`;
}

function section(title: string, rules: Record<string, Rule>): string {
  const lines = Object.entries(rules)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, rule]) => row([`\`${name}\``, ...cells(rule, title === 'Routes')]));
  const head = [row([title, ...COLUMNS]), row(['---', ...COLUMNS.map(() => '---')])];
  return `## ${title}\n\n${[...head, ...lines].join('\n')}\n`;
}

function row(given: readonly string[]): string {
  return `| ${given.join(' | ')} |`;
}

function cells(rule: Rule, takesTokens: boolean): string[] {
  if (!takesTokens) return [...cells(rule, true).slice(0, -1), PASSED_OVER];
  if (rule === 'anyone') return [...COLUMNS.slice(0, -1).map(() => 'in'), 'any'];
  if (rule === 'signed-in') return ['401', ...ROLES.map(() => 'in'), '–'];
  const roles: readonly string[] = RIGHTS[rule];
  return ['401', ...ROLES.map((role) => (roles.includes(role) ? 'in' : '403')), scope(rule)];
}

/** Pages and actions know people only. */
const PASSED_OVER = 'passed over';

function scope(right: Right): string {
  return (TOKEN_SCOPES as readonly Right[]).includes(right) ? right : '–';
}

export type Verdict = 'in' | '401' | '403';

/** The committed table, by what is asked for and who asks. */
export class RoleTable {
  readonly #rows = new Map<string, Record<string, string>>();

  constructor(text = readFileSync(TABLE_FILE, 'utf8')) {
    for (const line of text.split('\n').filter((one) => one.startsWith('| `'))) {
      const [name, ...given] = line.split('|').slice(1, -1) as [string, ...string[]];
      const columns = Object.fromEntries(COLUMNS.map((column, index) => [column, given[index]!.trim()]));
      this.#rows.set(name.trim().slice(1, -1), columns);
    }
  }

  get names(): string[] {
    return [...this.#rows.keys()];
  }

  /** What may be answered. A secret that is none is told so even where nobody has to say who it is. */
  answersTo(name: string, column: string, isStranger: boolean): Verdict[] {
    const cells = this.#rows.get(name);
    if (cells === undefined) throw new Error(`${name} is not in the table`);
    if (isStranger && cells.nobody === 'in') return ['in', '401'];
    if (!column.startsWith('token:')) return [cells[column] as Verdict];
    const needed = cells['a token with'];
    if (needed === PASSED_OVER) return [cells.nobody as Verdict];
    return [needed === 'any' || needed === column.slice('token:'.length) ? 'in' : '403'];
  }
}
