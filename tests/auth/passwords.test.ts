import { describe, expect, it } from 'vitest';
import { hashPassword, isPasswordOf, SCRYPT, UNKNOWN_HASH } from '@/lib/auth/password-hash';
import { checkPassword } from '@/lib/auth/password-rules';
import { AppError } from '@/lib/contract/app-error';

const WORDS = ['Ines Carvalho', 'ines.carvalho@northmill.example', 'Northmill Dairy'];

/** What is wrong with a password; null where it is taken. */
function fault(password: string): string | null {
  try {
    checkPassword(password, WORDS);
    return null;
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    expect(JSON.stringify([error.message, error.faults])).not.toContain(password);
    return error.faults[0]!.message;
  }
}

describe('a password', () => {
  it('is taken from 15 characters on, up to 256', () => {
    expect(fault('kv7 wq2 zt9 pl3'.slice(0, 14))).toMatch(/at least 15/);
    expect(fault('kv7 wq2 zt9 pl3')).toBeNull();
    const long = Array.from({ length: 64 }, (_, i) => `w${i * 7}`).join(' ');
    expect(fault(long.slice(0, 64))).toBeNull();
    expect(fault(long.slice(0, 256))).toBeNull();
    expect(fault(long.slice(0, 257))).toMatch(/at most 256/);
  });

  it('needs no mixture of kinds of characters', () => {
    expect(fault('seven slow kettles of brine')).toBeNull();
    expect(fault('830 164 977 205 18')).toBeNull();
  });

  it('counts characters, not bytes, in any script and with signs of all kinds', () => {
    expect(fault('кирпич вечером')).toMatch(/at least 15/);
    expect(fault('кирпич вечером с')).toBeNull();
    expect(fault('🦀🌊🧂🪣🏭🔧🌡️ 🧱🌾🍋🥁🎲🧵🪁')).toBeNull();
  });

  it.each([
    ['passwordpassword', /first that anybody/],
    ['Password2026!!!', /first that anybody/],
    ['iloveyouiloveyou', /first that anybody/],
    ['letmein letmein letmein', /first that anybody/],
    ['abababababababab', /first that anybody/],
    ['aaaaaaaaaaaaaaaaaaa', /first that anybody/],
    ['12345678901234567890', /first that anybody|alphabet/],
    ['abcdefghijklmnopq', /alphabet/],
    ['qwertyuiopasdfgh', /keyboard/],
    ['Ines-Carvalho-2026', /your name/],
    ['northmilldairy12345', /your name/],
    ['cleanby.northmill.', /your name/],
  ])('that anybody would try is refused: %s', (password, reason) => {
    expect(fault(password)).toMatch(reason);
  });

  it('holds no control characters', () => {
    expect(fault('seven slow\tkettles of brine')).toMatch(/control characters/);
  });
});

describe('the hash of a password', () => {
  it('costs no less than the least OWASP names for scrypt', () => {
    // OWASP Password Storage Cheat Sheet, scrypt: pairs of N and p at r = 8 of equal strength.
    const least = [
      [2 ** 17, 1],
      [2 ** 16, 2],
      [2 ** 15, 3],
      [2 ** 14, 5],
      [2 ** 13, 10],
    ] as const;
    expect(least.some(([N, p]) => SCRYPT.N >= N && SCRYPT.p >= p && SCRYPT.r >= 8)).toBe(true);
  });

  it('tells the password from others, and has a salt of its own each time', async () => {
    const [one, two] = await Promise.all([hashPassword('kv7 wq2 zt9 pl3'), hashPassword('kv7 wq2 zt9 pl3')]);
    expect(one).not.toBe(two);
    expect(one).not.toContain('kv7');
    expect(await isPasswordOf(one, 'kv7 wq2 zt9 pl3')).toBe(true);
    expect(await isPasswordOf(two, 'kv7 wq2 zt9 pl4')).toBe(false);
    expect(await isPasswordOf(one, 'KV7 wq2 zt9 pl3')).toBe(false);
    expect(Buffer.from(one.split('$')[4]!, 'base64url').length).toBeGreaterThanOrEqual(16);
  });

  it('is the same for the same characters typed as one code point or as two', async () => {
    const composed = 'caf\u00e9 au lait, sans sucre';
    const typed = 'cafe\u0301 au lait, sans sucre';
    expect(await isPasswordOf(await hashPassword(composed), typed)).toBe(true);
  });

  it('of no account fits no password, after the same work', async () => {
    expect(await isPasswordOf(UNKNOWN_HASH, '')).toBe(false);
    expect(UNKNOWN_HASH.split('$').slice(0, 4)).toEqual((await hashPassword('x')).split('$').slice(0, 4));
  });
});
