import { randomBytes, timingSafeEqual } from 'node:crypto';
import { isFromThisMachine } from './caller';

/** 80 random bits: nobody guesses them, and they can still be typed. */
const CODE_BYTES = 10;

/** A code for the first run on a server that is reached from elsewhere, such as 1f2e-93ab-…; the command that serves prints it. */
export function makeFirstRunCode(): string {
  return randomBytes(CODE_BYTES).toString('hex').match(/.{4}/g)!.join('-');
}

/** Whether whoever asks may make the first account: someone at this machine, or who can read what the server printed. */
export function mayStartFirst(headers: Headers, code: string): boolean {
  return isFromThisMachine(headers) || isCode(code);
}

function isCode(code: string): boolean {
  const known = Buffer.from(process.env.CLEANBY_FIRST_RUN_CODE ?? '');
  const given = Buffer.from(code.trim().toLowerCase());
  return known.length > 0 && known.length === given.length && timingSafeEqual(known, given);
}
