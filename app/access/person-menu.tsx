import Link from 'next/link';
import { signOutAction } from '@/app/sign-in/sign-out-action';
import { Button } from '@/app/ui/button/button';
import styles from './person-menu.module.css';

/** Who is signed in, the way to that one's account, and out. */
export function PersonMenu({ name, role }: { name: string; role: string }) {
  return (
    <form action={signOutAction} className={styles.person} aria-label="Signed in">
      <Link href="/account" className={styles.name} title={`Your account: ${role}`}>
        {name}
      </Link>
      <Button type="submit" weight="quiet">
        Sign out
      </Button>
    </form>
  );
}
