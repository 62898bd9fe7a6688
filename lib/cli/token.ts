import { type Command, InvalidArgumentError } from 'commander';
import { TOKEN_SCOPES } from '@/lib/auth/rights';
import { SCOPE_WORDS } from '@/lib/auth/scope-words';
import { tokenDays, USUAL_TOKEN_DAYS } from '@/lib/contract/api/token-request';
import { AppError } from '@/lib/contract/app-error';
import { tokenRows } from '@/lib/report/tokens/token-rows';
import { makeToken, readTokens, withdrawToken } from '@/lib/work/tokens';
import { message, print } from './output';
import { withContext } from './with-context';

const SCOPES = TOKEN_SCOPES.map((scope) => `  ${scope.padEnd(9)} ${SCOPE_WORDS[scope as never]}`).join('\n');

export function addToken(program: Command): void {
  const token = program.command('token').description('keys by which programs use the HTTP API');
  token
    .command('add')
    .argument('<name>', 'the program it is for')
    .requiredOption('--scopes <scopes>', 'what it may do, comma between', (text) => text.split(','))
    .option('--expires <time>', `12w, 6mo, 2y, or never; ${USUAL_TOKEN_DAYS}d where not stated`, expiry)
    .option('--json', 'print the token as JSON')
    .description('makes a token and prints its secret, this once')
    .addHelpText('after', `\nScopes:\n${SCOPES}`)
    .action(add);
  token
    .command('list')
    .option('--json', 'print the tokens as JSON')
    .option('--csv', 'print them as CSV')
    .description('every token, whether it holds and when it was last used')
    .action(list);
  token
    .command('revoke')
    .argument('<token>', 'its name or its number')
    .description('the next request that sends it is refused')
    .action(revoke);
}

/** The command line takes a bare null for a value that failed. */
type Expiry = { days: number | null };

function expiry(text: string): Expiry {
  const days = tokenDays(text);
  if (days === undefined) throw new InvalidArgumentError('write 90d, 12w, 6mo, 2y or never');
  return { days };
}

type AddOptions = { scopes: string[]; expires?: Expiry; json?: boolean };

async function add(name: string, { scopes, expires, json }: AddOptions): Promise<void> {
  const request = { name, scopes: scopes.map((scope) => scope.trim()), days: expires?.days };
  const { token, secret } = await withContext((context) => makeToken(context, request));
  if (json) print({ json }, { document: { ...tokenRows([token], Date.now())[0], secret }, table: NO_TABLE });
  else process.stdout.write(`${secret}\n`);
  const until = token.expiresAt === null ? 'until it is revoked' : `until ${isoDay(token.expiresAt)}`;
  message(`${token.name} may ${token.scopes.join(', ')}, ${until}. Keep it now: it is not shown again`);
}

const NO_TABLE = { columns: [], rows: [] };

async function list(options: { json?: boolean; csv?: boolean }): Promise<void> {
  const rows = await withContext(async (context) => tokenRows(await readTokens(context), context.now()));
  const columns = [
    'id',
    'name',
    'prefix',
    'state',
    'scopes',
    'expiresAt',
    'lastUsedAt',
    'createdBy',
  ] as const;
  const cells = rows.map((row) => columns.map((key) => (key === 'scopes' ? row.scopes.join(' ') : row[key])));
  print(options, { document: { tokens: rows }, table: { columns: [...columns], rows: cells } });
}

async function revoke(named: string): Promise<void> {
  const token = await withContext(async (context) => {
    const known = (await readTokens(context)).filter(({ revokedAt }) => revokedAt === null);
    const found = known.find(({ id, name }) => name === named || String(id) === named);
    if (found === undefined) throw unknown(named, known);
    return withdrawToken(context, found.id);
  });
  message(`${token.name} (${token.prefix}…) is revoked`);
}

function unknown(named: string, known: { name: string }[]): AppError {
  const names = known.map(({ name }) => `"${name}"`).join(', ');
  return new AppError('not-found', `There is no token "${named}" to revoke`, [
    { field: 'token', message: names === '' ? 'there is none that holds' : `there are ${names}` },
  ]);
}

function isoDay(at: number): string {
  return new Date(at).toISOString().slice(0, 10);
}
