import account from '@/app/access/account-form.module.css';
import { Notice } from '@/app/ui/notice/notice';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { type DemoAccount, DemoAccounts } from './demo-accounts';
import styles from './sign-in.module.css';
import { SignInForm } from './sign-in-form';

type Props = {
  /** The page to go to afterwards. */
  to: string;
  demo: DemoAccount[];
  /** What the plant's identity provider is called; null where there is none. */
  provider: string | null;
  problem: string | null;
};

/** Address and password; in a demonstration its accounts as well, each in one click. */
export function SignInScreen({ to, demo, provider, problem }: Props) {
  return (
    <div className={account.screen}>
      <PageHeader title="Sign in" />
      {problem === null ? null : <Notice kind="problem">{problem}</Notice>}
      {demo.length === 0 ? null : <DemoAccounts to={to} accounts={demo} />}
      {provider === null ? null : (
        // A plain link: the way leads off this server, and a form's may not.
        <p>
          <a href={`/sign-in/provider?to=${encodeURIComponent(to)}`}>Sign in with {provider}</a>, or:
        </p>
      )}
      <SignInForm to={to} />
      <p className={styles.note}>
        No account, or the password forgotten? An administrator invites people and sets passwords anew.
      </p>
    </div>
  );
}
