import type { Command } from 'commander';
import { invitationPath } from '@/lib/auth/invitation-secret';
import { hashPassword } from '@/lib/auth/password-hash';
import { publicOrigin } from '@/lib/auth/public-origin';
import { accountSchema, emailSchema, type PersonChangeRequest } from '@/lib/contract/people';
import { peopleTable } from '@/lib/report/people/people-table';
import { addAccount } from '@/lib/work/people/add-account';
import { changePerson } from '@/lib/work/people/change-person';
import { invite } from '@/lib/work/people/invite';
import { personOfEmail } from '@/lib/work/people/person-of-email';
import { readPeople } from '@/lib/work/people/read-people';
import { acceptablePassword, resetPassword } from '@/lib/work/people/reset-password';
import { message, type OutputOptions, print } from './output';
import { readPassword } from './read-password';
import { stated } from './stated';
import { withContext } from './with-context';

const ROLES = 'viewer, engineer, planner, manager or administrator';
/** Where the server is when nobody says. */
const USUAL_ORIGIN = 'http://127.0.0.1:4000';

/** Accounts from the machine itself, for administrators who are locked out too. */
export function addUser(program: Command): void {
  const user = program.command('user').description('accounts of people');
  user
    .command('add')
    .argument('<mail>', 'the address to sign in with')
    .requiredOption('--name <name>', 'as records of changes show it')
    .requiredOption('--role <role>', ROLES)
    .option('--invite', 'print a link by which that person chooses the password')
    .description('makes an account; its password is asked for, or is the first line of stdin')
    .action(add);
  user
    .command('list')
    .option('--json', 'print the accounts as JSON')
    .option('--csv', 'print them as CSV')
    .description('every account with role, state and when it was last seen')
    .action(list);
  user
    .command('role')
    .argument('<mail>')
    .argument('<role>', ROLES)
    .description('gives another role and ends the sessions of the account')
    .action((mail: string, role: string) =>
      change(mail, (seen) => ({ ...seen, what: 'role', role: roleOf(role) })),
    );
  for (const [what, words] of Object.entries(CHANGES)) {
    user
      .command(what)
      .argument('<mail>')
      .description(words)
      .action((mail: string) => change(mail, (seen) => ({ ...seen, what: what as keyof typeof CHANGES })));
  }
  user
    .command('password')
    .argument('<mail>')
    .description('sets another password, asked for or the first line of stdin; ends sessions and waits')
    .action(password);
}

const CHANGES = {
  disable: 'lets nobody in by this account any more, and ends its sessions',
  enable: 'opens it again',
  unlock: 'ends the wait after wrong passwords',
  'end-sessions': 'signs the account out everywhere',
} as const;

type Account = { name: string; role: string; invite?: boolean };

async function add(mail: string, { invite: isInvitation, ...options }: Account): Promise<void> {
  const account = stated(accountSchema, { ...options, email: mail });
  await withContext(async (context) => {
    if (isInvitation) {
      const { secret } = await invite(context, account);
      process.stdout.write(`${publicOrigin()?.origin ?? USUAL_ORIGIN}${invitationPath(secret)}\n`);
      message(`Send this link to ${account.email}: it holds for 7 days and once, and is not shown again`);
      return;
    }
    const chosen = await acceptablePassword(context, account, await readPassword());
    await addAccount(context, { ...account, passwordHash: await hashPassword(chosen) });
    message(`${account.email}: account made, ${account.role}`);
  });
}

async function list(options: OutputOptions): Promise<void> {
  const records = await withContext(readPeople);
  print(options, peopleTable(records));
}

type Asked = (seen: { id: string; revision: number }) => PersonChangeRequest;

async function change(mail: string, asked: Asked): Promise<void> {
  const said = await withContext(async (context) => {
    const { id, revision } = await personOfEmail(context, stated(emailSchema, mail));
    return changePerson(context, asked({ id, revision }));
  });
  message(said);
}

function roleOf(role: string) {
  return stated(accountSchema.pick({ role: true }), { role }).role;
}

async function password(mail: string): Promise<void> {
  await withContext(async (context) => {
    const person = await personOfEmail(context, stated(emailSchema, mail));
    await resetPassword(context, person, await readPassword());
    message(`${person.email}: password set, every session ended`);
  });
}
