import { randomBytes } from 'node:crypto';

/** 144 random bits: three more than base64 needs to end without padding, and more than the 128 that cannot be guessed. */
const NONCE_BYTES = 18;

/** A word that lets the scripts of one answer run, and of no other. */
export function makeNonce(): string {
  return randomBytes(NONCE_BYTES).toString('base64');
}
