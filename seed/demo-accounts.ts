import { ROLES, type Role } from '@/lib/auth/rights';
import { actingAs, type Context } from '@/lib/work/context';
import { addAccount } from '@/lib/work/people/add-account';

/** One account per role. They have no password: the sign-in page of a demonstration opens them in one click. */
const NAMES: Record<Role, string> = {
  viewer: 'Demo viewer',
  engineer: 'Demo engineer',
  planner: 'Demo planner',
  manager: 'Demo manager',
  administrator: 'Demo administrator',
};

export async function addDemoAccounts(context: Context): Promise<void> {
  const seeding = actingAs(context, { kind: 'system', id: null, name: 'demonstration' });
  for (const role of ROLES) {
    const email = `${role}@demo.example`;
    await addAccount(seeding, { name: NAMES[role], email, role, passwordHash: null });
  }
}
