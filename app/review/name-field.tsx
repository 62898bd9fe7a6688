'use client';

import { saveCookie } from '@/app/ui/shell/save-cookie';
import styles from './toolbar.module.css';

/** Who uses this browser: every mark bears the name, and the browser remembers it. */
export function NameField({ saved, cookie }: { saved: string; cookie: string }) {
  return (
    <label className={styles.name}>
      Your name
      <input
        id="your-name"
        defaultValue={saved}
        maxLength={80}
        autoComplete="name"
        placeholder="to mark lines"
        onChange={(event) => saveCookie(cookie, encodeURIComponent(event.target.value.trim()))}
      />
    </label>
  );
}
