import { randomBytes, type ScryptOptions, scrypt, timingSafeEqual } from 'node:crypto';

/**
 * Cost of hashing a password: scrypt with 32 MiB and three passes, one of the equal minima that OWASP's Password Storage
 * Cheat Sheet names (N = 2^15, r = 8, p = 3). The sign-in library's own default, N = 2^14, r = 16, p = 1, stays below them.
 */
export const SCRYPT = { N: 2 ** 15, r: 8, p: 3 } as const;

/** SP 800-63B asks for a salt of at least 32 bits; 128 are customary. */
const SALT_BYTES = 16;
const KEY_BYTES = 32;

/** What is kept of a password: its cost stands beside it, so that a later, dearer one can be told apart. */
export async function hashPassword(password: string): Promise<string> {
  const salt = randomBytes(SALT_BYTES);
  const key = await derive(password, salt, SCRYPT);
  const { N, r, p } = SCRYPT;
  return ['scrypt', N, r, p, salt.toString('base64url'), key.toString('base64url')].join('$');
}

/** Whether a password is the one a hash was made of; takes the same time either way. */
export async function isPasswordOf(hash: string, password: string): Promise<boolean> {
  const [kind, N, r, p, salt, key] = hash.split('$');
  if (kind !== 'scrypt' || salt === undefined || key === undefined) return false;
  const expected = Buffer.from(key, 'base64url');
  const cost = { N: Number(N), r: Number(r), p: Number(p) };
  const found = await derive(password, Buffer.from(salt, 'base64url'), cost);
  return found.length === expected.length && timingSafeEqual(found, expected);
}

type Cost = { N: number; r: number; p: number };

function derive(password: string, salt: Buffer, cost: Cost): Promise<Buffer> {
  // Node refuses what takes more than it is told to expect.
  const options: ScryptOptions = { ...cost, maxmem: 256 * cost.N * cost.r };
  return new Promise((resolve, reject) => {
    scrypt(normalPassword(password), salt, KEY_BYTES, options, (error, key) =>
      error === null ? resolve(key) : reject(error),
    );
  });
}

/** The same characters typed on another keyboard are the same password (SP 800-63B-4, 3.1.1.2: NFKC or NFC). */
export function normalPassword(password: string): string {
  return password.normalize('NFKC');
}

/** A hash of no password at our cost: what an address without an account is compared with, so that it takes as long. */
export const UNKNOWN_HASH = [
  'scrypt',
  SCRYPT.N,
  SCRYPT.r,
  SCRYPT.p,
  'AAAAAAAAAAAAAAAAAAAAAA',
  'A'.repeat(43),
].join('$');
