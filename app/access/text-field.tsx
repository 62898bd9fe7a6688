import type { InputHTMLAttributes, ReactNode } from 'react';
import { described, Field } from '@/app/ui/form/field';

type Props = Omit<InputHTMLAttributes<HTMLInputElement>, 'id' | 'name'> & {
  id: string;
  label: string;
  hint?: ReactNode;
  error: string | null;
};

/** One line of text of an account's form; its name is its id. */
export function TextField({ id, label, hint, error, ...rest }: Props) {
  return (
    <Field id={id} label={label} hint={hint} error={error}>
      <input {...rest} {...described(id, error, hint)} name={id} />
    </Field>
  );
}
