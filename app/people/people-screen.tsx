import Link from 'next/link';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { Section } from '@/app/ui/section/section';
import type { PeopleView } from '@/lib/report/people/people-view';
import { ROLE_CHOICES } from '@/lib/report/people/role-words';
import { InvitationTable } from './invitation-table';
import { InviteForm } from './invite-form';
import styles from './people.module.css';
import { PeopleTable } from './people-table';

/** Who may come in and as what; inviting others. */
export function PeopleScreen({ view }: { view: PeopleView }) {
  return (
    <>
      <PageHeader title="People" context={view.summary}>
        <p>
          A change of role or access ends the sessions of that account: its owner signs in anew. Programs have
          no account: they use <Link href="/tokens">tokens</Link>.
        </p>
      </PageHeader>
      <PeopleTable people={view.people} />
      <Section
        id="invite"
        title="Invite somebody"
        lead="You get a link to send; it holds for 7 days and once. No mail is sent from here."
      >
        <InviteForm />
        <InvitationTable invitations={view.invitations} />
      </Section>
      <Section id="roles" title="Roles">
        <dl className={styles.roles}>
          {ROLE_CHOICES.map(({ value, words }) => (
            <div key={value}>
              <dt>{value}</dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
      </Section>
    </>
  );
}
