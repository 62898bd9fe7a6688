import { Button } from '@/app/ui/button/button';
import { openDemoAction } from './open-demo-action';
import styles from './sign-in.module.css';

export type DemoAccount = { name: string; email: string };

/** The accounts of a demonstration: they have no password and open on this machine only. */
export function DemoAccounts({ to, accounts }: { to: string; accounts: DemoAccount[] }) {
  return (
    <section className={styles.demo} aria-labelledby="demo-accounts">
      <h2 id="demo-accounts">Look around as</h2>
      <ul>
        {accounts.map(({ name, email }) => (
          <li key={email}>
            <form action={openDemoAction}>
              <input type="hidden" name="account" value={email} />
              <input type="hidden" name="to" value={to} />
              <Button type="submit">{name}</Button>
            </form>
          </li>
        ))}
      </ul>
      <p className={styles.note}>
        This is a demonstration: these accounts need no password and open on this machine only.
      </p>
    </section>
  );
}
