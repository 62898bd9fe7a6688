import { isFromThisMachine } from './caller';

/** Whether the accounts of a demonstration may be opened without a password: asked for at start, and only on this machine. */
export function isDemoOpen(headers: Headers): boolean {
  return process.env.CLEANBY_DEMO === '1' && isFromThisMachine(headers);
}
