'use client';

import { useEffect, useRef, useState } from 'react';
import styles from './toolbar.module.css';
import type { LeaveFind } from './use-leave-find';

/** The address bar must not change with every key: browsers refuse after a hundred changes in half a minute. */
const WRITE_AFTER_MS = 150;

type Props = { value: string; onFind: (text: string) => void; onLeave: LeaveFind };

/** Finds by tag, service or site. `/` comes here from anywhere, Esc clears; arrow down and Enter go to the first row found. */
export function FindBox({ value, onFind, onLeave }: Props) {
  const box = useRef<HTMLInputElement>(null);
  const [text, setText] = useState(value);
  const written = useRef(value);
  useEffect(() => {
    if (value === written.current) return;
    written.current = value;
    setText(value);
  }, [value]);
  const write = () => {
    if (text === written.current) return;
    written.current = text;
    onFind(text);
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is written is the text and where to
  useEffect(() => {
    const waiting = setTimeout(write, WRITE_AFTER_MS);
    return () => clearTimeout(waiting);
  }, [text, onFind]);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return;
      if (event.key === 'Escape') setText('');
      if (event.key !== '/') return;
      event.preventDefault();
      box.current?.focus();
      box.current?.select();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, []);
  return (
    <input
      ref={box}
      className={styles.find}
      type="search"
      aria-label="Find a unit by tag, service or site"
      aria-keyshortcuts="/"
      placeholder="Find tag or service  ( / )"
      value={text}
      onChange={(event) => {
        setText(event.target.value);
        onLeave(null);
      }}
      onKeyDown={(event) => {
        if (event.key === 'Escape') setText('');
        if (event.key === 'ArrowDown' || event.key === 'Enter') {
          event.preventDefault();
          write();
          onLeave({ find: text, key: event.key });
        }
      }}
    />
  );
}

function isTyping(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement &&
    target.matches('input:not([type=radio]), select, textarea, [contenteditable]')
  );
}
