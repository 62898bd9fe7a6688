import Link from 'next/link';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import type { AccountView } from '@/lib/report/people/account-view';
import { roleWords } from '@/lib/report/people/role-words';
import { NameForm } from './name-form';
import { PasswordForm } from './password-form';
import { SessionTable } from './session-table';

/** One's own account: name, password, and where one is signed in. */
export function AccountScreen({ view }: { view: AccountView }) {
  const { email, role, name, hasPassword, givesRoles } = view;
  return (
    <>
      <PageHeader title="Your account" context={email}>
        <p>
          Your role is <strong>{role}</strong>: {roleWords(role)}.{' '}
          {givesRoles ? (
            <>
              Roles are given under <Link href="/people">People</Link>.
            </>
          ) : (
            'An administrator gives roles.'
          )}
        </p>
      </PageHeader>
      <Section id="name-section" title="Name">
        <NameForm name={name} />
      </Section>
      <Section id="password-section" title="Password">
        {hasPassword ? (
          <PasswordForm email={email} />
        ) : (
          <p>This account has no password here: it is opened in another way.</p>
        )}
      </Section>
      <Section
        id="sessions"
        title="Where you are signed in"
        lead="A session ends after 12 hours without use, and 7 days after signing in at the latest."
      >
        <SessionTable view={view} />
      </Section>
    </>
  );
}
