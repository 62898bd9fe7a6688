'use client';

import { useEffect, useState } from 'react';
import styles from '@/app/access/account-form.module.css';
import { Notice } from '@/app/ui/notice/notice';
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
      <PageHeader title="Make your account" />
      {answer === null ? <p role="status">Looking up the invitation …</p> : null}
      {answer?.kind === 'gone' ? (
        <Notice kind="problem" title={answer.message}>
          {answer.remedy}
        </Notice>
      ) : null}
      {answer?.kind === 'open' ? <InvitationForm secret={secret} invitation={answer} /> : null}
    </div>
  );
}
