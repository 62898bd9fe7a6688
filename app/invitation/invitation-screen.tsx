'use client';

import Link from 'next/link';
import { useEffect, useState } from 'react';
import styles from '@/app/access/account-form.module.css';
import { PageHeader } from '@/app/ui/page-header/page-header';
import { type InvitationAnswer, readInvitationAction } from './invitation-actions';
import { InvitationForm } from './invitation-form';

/** The secret of the link stands behind #: the page reads it here and sends it only in a form, so that no log holds it. */
export function InvitationScreen() {
  const [secret, setSecret] = useState('');
  const [answer, setAnswer] = useState<InvitationAnswer | null>(null);
  useEffect(() => {
    const given = window.location.hash.slice(1);
    setSecret(given);
    readInvitationAction(given).then(setAnswer);
  }, []);
  return (
    <div className={styles.screen}>
      <PageHeader title={answer?.kind === 'gone' ? 'This invitation no longer holds' : 'Make your account'} />
      {answer === null ? <p role="status">Looking up the invitation …</p> : null}
      {answer?.kind === 'gone' ? <Gone /> : null}
      {answer?.kind === 'open' ? <InvitationForm secret={secret} invitation={answer} /> : null}
    </div>
  );
}

/** Ways on from a link that was used, withdrawn, too old or cut short. */
function Gone() {
  return (
    <div role="status">
      <p>
        It was used already, withdrawn, or is out of date; or part of the link is missing. Ask the
        administrator who sent it for a new one.
      </p>
      <p>
        You have an account already? <Link href="/sign-in">Sign in</Link>.
      </p>
    </div>
  );
}
