import { type TokenRequest, tokenDays } from '@/lib/contract/api/token-request';
import { AppError } from '@/lib/contract/app-error';

/** Reads the form of a token. @throws AppError 'invalid-input' where it does not say how long the token holds */
export function tokenRequestOf(form: FormData): TokenRequest {
  const days = tokenDays(`${form.get('expires') ?? ''}`);
  // Left to the usual number of days, it would hold longer than what was written.
  if (days === undefined) {
    throw new AppError('invalid-input', 'No token was made', [
      { field: 'expires', message: 'choose how long it holds: 90d, 12w, 6mo, 2y or never' },
    ]);
  }
  return { name: `${form.get('name') ?? ''}`, scopes: form.getAll('scopes').map(String), days };
}
