'use client';

import { type ReactNode, useEffect, useId, useRef, useState } from 'react';
import { Button } from '@/app/ui/button/button';
import styles from './form-dialog.module.css';

type Props = {
  /** Text of the button that opens it. */
  label: string;
  /** What it is about, for those who only hear the button. */
  what: string;
  title: string;
  /** The form; it closes the dialog once it is done, and has a button to cancel. */
  children: (close: () => void) => ReactNode;
};

/** A button that opens a form over the page; Escape and Cancel lead back without a change. */
export function FormDialog({ label, what, title, children }: Props) {
  const [isOpen, setIsOpen] = useState(false);
  const dialog = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  useEffect(() => {
    if (isOpen) dialog.current?.showModal();
  }, [isOpen]);
  return (
    <>
      <Button weight="quiet" aria-label={`${label}: ${what}`} onClick={() => setIsOpen(true)}>
        {label}
      </Button>
      {isOpen ? (
        <dialog
          ref={dialog}
          className={styles.dialog}
          aria-labelledby={titleId}
          onClose={() => setIsOpen(false)}
        >
          <h3 id={titleId}>{title}</h3>
          <p className={styles.what}>{what}</p>
          {children(() => dialog.current?.close())}
        </dialog>
      ) : null}
    </>
  );
}
