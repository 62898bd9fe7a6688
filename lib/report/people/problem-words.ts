/** Why a sign-in by the plant's identity provider came to nothing. */
const PROBLEM_WORDS: Record<string, string> = {
  provider:
    'That did not work: the identity provider did not answer, or did not vouch for your address. Try again.',
  disabled: 'This account is disabled: ask an administrator to enable it again.',
};

/** What the sign-in page says about the problem that its address names; null for any other text. */
export function problemWords(problem: unknown): string | null {
  return typeof problem === 'string' && Object.hasOwn(PROBLEM_WORDS, problem)
    ? PROBLEM_WORDS[problem]!
    : null;
}
