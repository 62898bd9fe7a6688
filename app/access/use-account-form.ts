'use client';

import { useActionState } from 'react';
import type { FormAnswer } from './form-answer';

type Action = (before: FormAnswer, form: FormData) => Promise<FormAnswer>;

/** A form of an account: what the server answered, what it says about a field, and what was typed before. */
export function useAccountForm(action: Action) {
  const [answer, send, isSending] = useActionState<FormAnswer, FormData>(action, { kind: 'none' });
  const refused = answer.kind === 'refused' ? answer : null;
  return {
    answer,
    send,
    isSending,
    errorOf: (name: string) => refused?.errors[name] ?? null,
    typed: (name: string, otherwise = '') => refused?.fields[name] ?? otherwise,
  };
}
