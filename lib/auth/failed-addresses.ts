import { AppError } from '@/lib/contract/app-error';

const MINUTE = 60_000;

/** Wrong passwords from one address, whatever the account, within the window below: more is somebody going through a list. */
export const MOST_PER_ADDRESS = 50;
export const WINDOW_MS = 15 * MINUTE;

/** Addresses kept in mind; beyond that the oldest is forgotten, so that nobody can fill the memory. */
const MOST_ADDRESSES = 10_000;

type Tally = { since: number; failures: number };

/** Counts wrong passwords by the address they come from, in the memory of this process. */
export class FailedAddresses {
  private readonly tallies = new Map<string, Tally>();

  /** @throws AppError 'too-many-requests' where too many have failed from there lately */
  check(address: string, now: number): void {
    const tally = this.current(address, now);
    if (tally.failures < MOST_PER_ADDRESS) return;
    const minutes = Math.ceil((tally.since + WINDOW_MS - now) / MINUTE);
    throw new AppError('too-many-requests', 'Too many sign-ins have failed from this address', [
      {
        field: 'password',
        message: `wait ${minutes === 1 ? 'a minute' : `${minutes} minutes`}, then try again`,
      },
    ]);
  }

  note(address: string, now: number): void {
    const { since, failures } = this.current(address, now);
    this.tallies.delete(address);
    this.tallies.set(address, { since, failures: failures + 1 });
    const oldest = this.tallies.keys().next();
    if (this.tallies.size > MOST_ADDRESSES && !oldest.done) this.tallies.delete(oldest.value);
  }

  private current(address: string, now: number): Tally {
    const known = this.tallies.get(address);
    return known === undefined || now - known.since >= WINDOW_MS ? { since: now, failures: 0 } : known;
  }
}
