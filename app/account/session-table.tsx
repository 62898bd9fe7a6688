import { RowCards } from '@/app/people/row-cards';
import { Button } from '@/app/ui/button/button';
import type { AccountView, SessionRow } from '@/lib/report/people/account-view';
import styles from './account.module.css';
import { endOtherSessionsAction, endSessionAction } from './account-actions';

const COLUMNS = [
  { key: 'device', head: 'Browser' },
  { key: 'address', head: 'Address' },
  { key: 'since', head: 'Signed in' },
  { key: 'lastUsed', head: 'Last used' },
  { key: 'ends', head: 'Ends' },
  { key: 'end', head: <span className="unseen">Action</span> },
];

/** Where one is signed in, this browser first; others can be ended from here. */
export function SessionTable({ view }: { view: AccountView }) {
  const rows = view.sessions.map((session) => ({
    key: session.id,
    cells: { ...session, isThis: null, end: <EndSession session={session} /> },
  }));
  const columns = view.hasAddresses ? COLUMNS : COLUMNS.filter(({ key }) => key !== 'address');
  return (
    <div className={styles.sessions}>
      <RowCards caption="Sessions" columns={columns} rows={rows} rowHead="device" />
      {view.hasOthers ? (
        <form action={endOtherSessionsAction}>
          <Button type="submit">Sign out everywhere else</Button>
        </form>
      ) : null}
    </div>
  );
}

function EndSession({ session: { id, isThis, device } }: { session: SessionRow }) {
  if (isThis) return <strong>this browser</strong>;
  return (
    <form action={endSessionAction}>
      <input type="hidden" name="session" value={id} />
      <Button type="submit" weight="quiet">
        End<span className="unseen"> {device}</span>
      </Button>
    </form>
  );
}
