import { dictionary } from '@zxcvbn-ts/language-common';
import { AppError } from '@/lib/contract/app-error';
import { normalPassword } from './password-hash';

/** The only factor of a sign-in: at least 15 characters, and 64 or more let through (SP 800-63B-4, 3.1.1.2). */
export const SHORTEST = 15;
export const LONGEST = 256;

/** Own words shorter than this occur in others by chance. */
const SHORTEST_WORD = 3;
/** So much must be left beside words that anybody would try first. */
const LEAST_OF_ONES_OWN = 8;
/** What is no more than such a part over and over is no longer than it. */
const SHORTEST_PART = 4;
/** Of its steps from one character to the next so many may be the same one, as in "aaaa", "1234" and "fedcba". */
const MOST_EQUAL_STEPS = 0.75;

/** What this product is called, and what people call what it does. */
const PRODUCT_WORDS = ['cleanby', 'clean-by', 'exchanger', 'fouling', 'password', 'passphrase', 'sign in'];

/** Rows of keyboards, read on from one into the next. */
const KEYBOARDS = ['qwertyuiopasdfghjklzxcvbnm', 'qwertzuiopasdfghjklyxcvbnm', 'azertyuiopqsdfghjklmwxcvbn'];

const COMMON = new Set(dictionary['passwords-common'].map((word) => word.toLowerCase()));

/**
 * Takes a password by the rules of SP 800-63B-4, 3.1.1.2 (from memory): long enough, any printing characters and blanks, no mixture of
 * kinds asked for, none that stands in a list of common ones or is made of the words around this account.
 *
 * @param ownWords of the person and the plant: name, address, sites
 * @throws AppError 'invalid-input' naming what to change; it never repeats the password
 */
export function checkPassword(password: string, ownWords: string[]): void {
  const fault = faultOf(normalPassword(password), ownWords);
  if (fault === null) return;
  throw new AppError('invalid-input', 'Choose another password', [{ field: 'password', message: fault }]);
}

function faultOf(password: string, ownWords: string[]): string | null {
  // A character is a code point, whatever it takes in bytes.
  const { length } = [...password];
  if (length < SHORTEST)
    return `make it at least ${SHORTEST} characters long, such as four words of your own`;
  if (length > LONGEST) return `make it at most ${LONGEST} characters long`;
  if (/\p{Cc}/u.test(password)) return 'leave out tabs, line breaks and other control characters';
  const plain = password.toLowerCase();
  if (isCommon(plain)) return 'this one is among the first that anybody would try; choose words of your own';
  if (isRun(plain)) return 'it follows the alphabet, the digits or the keyboard; choose words of your own';
  if (ofOnesOwn(plain, ownWords) < LEAST_OF_ONES_OWN)
    return 'it is mostly made of your name, your address, the plant or this product; choose other words';
  return null;
}

/** A common password, or one stretched by repeating it or by digits and signs around it. */
function isCommon(plain: string): boolean {
  const letters = plain.replace(/[^\p{L}]/gu, '');
  const isMostlyLetters = letters.length > plain.replace(/\P{N}/gu, '').length;
  const cores = [plain, repeated(plain), ...(isMostlyLetters ? [letters, repeated(letters)] : [])];
  return cores.some((core) => COMMON.has(core)) || repeated(plain).length <= SHORTEST_PART;
}

/** The shortest part that gives the text when it is repeated, a last piece cut off or not. */
function repeated(text: string): string {
  for (let size = 1; size <= text.length / 2; size++) {
    const part = text.slice(0, size);
    if (part.repeat(Math.ceil(text.length / size)).startsWith(text)) return part;
  }
  return text;
}

function isRun(plain: string): boolean {
  const codes = [...plain].map((character) => character.codePointAt(0)!);
  const steps = codes.slice(1).map((code, i) => code - codes[i]!);
  const isMost = (step: number) =>
    steps.filter((own) => own === step).length > MOST_EQUAL_STEPS * steps.length;
  const backwards = [...plain].reverse().join('');
  const isTyped = KEYBOARDS.some((row) => (row + row).includes(plain) || (row + row).includes(backwards));
  return isTyped || [-1, 0, 1].some(isMost);
}

/** Characters that are left without punctuation and the words around the account. */
function ofOnesOwn(plain: string, ownWords: string[]): number {
  const words = [...PRODUCT_WORDS, ...ownWords.flatMap(wordsOf)].sort((a, b) => b.length - a.length);
  let left = plain;
  for (const word of words) left = left.replaceAll(word, ' ');
  return [...left.replace(/[\p{P}\p{Z}]/gu, '')].length;
}

function wordsOf(text: string): string[] {
  const whole = normalPassword(text).toLowerCase();
  return [whole, ...whole.split(/[^\p{L}\p{N}]+/u)].filter((word) => word.length >= SHORTEST_WORD);
}
