// Stands in for lib/auth/password-hash where many accounts are wanted and what a hash costs is tested elsewhere.
export const UNKNOWN_HASH = 'plain$';
export const SCRYPT = { N: 0, r: 0, p: 0 };

export async function hashPassword(password: string): Promise<string> {
  return `plain$${normalPassword(password)}`;
}

export async function isPasswordOf(hash: string, password: string): Promise<boolean> {
  return hash !== UNKNOWN_HASH && hash === (await hashPassword(password));
}

export function normalPassword(password: string): string {
  return password.normalize('NFKC');
}
