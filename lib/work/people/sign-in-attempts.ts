import { ownAddress } from '@/lib/auth/caller';
import { FailedAddresses } from '@/lib/auth/failed-addresses';
import { takeSignInAttempt } from '@/lib/auth/limits';
import { AppError } from '@/lib/contract/app-error';
import { TooManyRequests } from '@/lib/contract/too-many-requests';
import { log } from '../log';

const failedAddresses = new FailedAddresses();

/**
 * Counts an attempt to get in by the address it comes from, before anything is looked at. Only addresses of somebody's own are
 * counted: where all look alike, anybody could shut out everybody, and the waits of the accounts have to do.
 *
 * @throws AppError 'too-many-requests'
 */
export function admitAttempt(headers: Headers, now: number): void {
  const address = ownAddress(headers);
  if (address === null) return;
  try {
    failedAddresses.check(address, now);
    takeSignInAttempt(address);
  } catch (error) {
    log.warn({ event: 'sign-in-blocked', address }, 'an address may not try to sign in for a while');
    throw error instanceof TooManyRequests ? inWordsOfForm(error) : error;
  }
}

/** Remembers that a password from there was wrong. */
export function noteFailure(headers: Headers, now: number): void {
  const address = ownAddress(headers);
  if (address !== null) failedAddresses.note(address, now);
}

function inWordsOfForm({ code, message, retryAfter }: TooManyRequests): AppError {
  return new AppError(code, message, [
    { field: 'password', message: `wait ${retryAfter} s, then try again` },
  ]);
}
