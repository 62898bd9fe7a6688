import { AppError } from '@/lib/contract/app-error';

/** What a form of an account is told: nothing yet, done, or why not with what is wrong by field. Passwords never come back. */
export type FormAnswer = { kind: 'none' } | { kind: 'done'; message: string } | Refused;

type Refused = {
  kind: 'refused';
  message: string;
  errors: Record<string, string>;
  fields: Record<string, string>;
};

/** Answers a form with the reason it was refused, or throws on what is a fault of ours. */
export function refusal(error: unknown, fields: Record<string, string> = {}): Refused {
  if (!(error instanceof AppError)) throw error;
  const errors = Object.fromEntries(error.faults.map(({ field, message }) => [field, message]));
  return { kind: 'refused', message: error.message, errors, fields };
}

/** The text of a field of a form; files and fields that are not there are empty. */
export function textOf(form: FormData, name: string): string {
  const value = form.get(name);
  return typeof value === 'string' ? value : '';
}
