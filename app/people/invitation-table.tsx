import { Button } from '@/app/ui/button/button';
import type { InvitationRow } from '@/lib/report/people/people-view';
import { withdrawInvitationAction } from './people-actions';
import { RowCards } from './row-cards';

const COLUMNS = [
  { key: 'email', head: 'Invited' },
  { key: 'name', head: 'Name' },
  { key: 'role', head: 'Role' },
  { key: 'from', head: 'By' },
  { key: 'holds', head: 'Link' },
  { key: 'withdraw', head: <span className="unseen">Action</span> },
];

/** Who is still asked to make an account. */
export function InvitationTable({ invitations }: { invitations: InvitationRow[] }) {
  if (invitations.length === 0) return null;
  const rows = invitations.map(({ id, ...invitation }) => ({
    key: String(id),
    cells: {
      ...invitation,
      withdraw: (
        <form action={withdrawInvitationAction}>
          <input type="hidden" name="id" value={id} />
          <Button type="submit" weight="quiet">
            Withdraw<span className="unseen"> the invitation of {invitation.email}</span>
          </Button>
        </form>
      ),
    },
  }));
  return <RowCards caption="Open invitations" isCaptionShown columns={COLUMNS} rows={rows} rowHead="email" />;
}
