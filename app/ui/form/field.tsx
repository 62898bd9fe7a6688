import type { ReactNode } from 'react';
import styles from './form.module.css';

type Props = {
  /** Id of the control; hint and error are tied to it as `<id>-hint` and `<id>-error`. */
  id: string;
  label: ReactNode;
  /** Beside the label in small letters: optional, an example. */
  hint?: ReactNode;
  error: string | null;
  isWide?: boolean;
  children: ReactNode;
};

/** A label over its control, with a hint, and the error beside it where a person looks. */
export function Field({ id, label, hint, error, isWide, children }: Props) {
  return (
    <div className={`${styles.field} ${isWide ? styles.wide : ''} ${error === null ? '' : styles.wrong}`}>
      <label htmlFor={id} className={styles.label}>
        {label}
      </label>
      {children}
      {hint ? (
        <p id={`${id}-hint`} className={styles.hint}>
          {hint}
        </p>
      ) : null}
      <FieldError id={id} error={error} />
    </div>
  );
}

/** What is wrong with a control and what to do; `described` ties the two together. */
export function FieldError({ id, error }: { id: string; error: string | null }) {
  return error === null ? null : (
    <p id={`${id}-error`} className={styles.error}>
      {error}
    </p>
  );
}

/** Attributes that tie a control to its hint and error. */
export function described(id: string, error: string | null, hint?: ReactNode) {
  const ids = [hint ? `${id}-hint` : '', error === null ? '' : `${id}-error`].filter((part) => part !== '');
  return {
    id,
    'aria-describedby': ids.length === 0 ? undefined : ids.join(' '),
    'aria-invalid': error === null ? undefined : true,
  };
}
