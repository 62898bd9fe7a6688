'use client';

import { CopyButton } from '@/app/import/copy-button';
import { Notice } from '@/app/ui/notice/notice';
import styles from './tokens.module.css';

/** The secret of a token just made: this is the only place and time it is shown. */
export function NewSecret({ name, secret }: { name: string; secret: string }) {
  return (
    <div className={styles.secret}>
      <Notice kind="done" title={`${name}: here is its token`}>
        <p>Keep it now, where the program finds it. It is not shown again, and nobody can look it up.</p>
        <p className={styles.secretLine}>
          <code className={styles.secretText}>{secret}</code>
          <CopyButton text={secret} label="Copy" />
        </p>
        <p>
          The program sends it with every request: <code>Authorization: Bearer {secret.slice(0, 14)}…</code>
        </p>
      </Notice>
    </div>
  );
}
