'use client';

import { useState } from 'react';
import { Button } from '@/app/ui/button/button';

/** Copies a text and says so; where the browser does not allow it, says how to do without. */
export function CopyButton({ text, label }: { text: string; label: string }) {
  const [outcome, setOutcome] = useState('');
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text);
      setOutcome('Copied');
    } catch {
      setOutcome('Not allowed here: select the line and copy it');
    }
  };
  return (
    <>
      <Button onClick={copy}>{label}</Button>
      <span role="status">{outcome}</span>
    </>
  );
}
