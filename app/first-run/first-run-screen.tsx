import styles from '@/app/access/account-form.module.css';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { FirstRunForm } from './first-run-form';

/** What a new installation shows first: somebody must be there who can let the others in. */
export function FirstRunScreen({ needsCode }: { needsCode: boolean }) {
  return (
    <div className={styles.screen}>
      <PageHeader title="Welcome: make the first account">
        <p>
          Nobody can sign in to this server yet. The first account is an administrator’s: it invites the
          others and gives them their roles.
        </p>
      </PageHeader>
      <FirstRunForm needsCode={needsCode} />
    </div>
  );
}
