/** What each role is for, in the words of the people page. */
const ROLE_WORDS: Record<string, string> = {
  viewer: 'sees everything, changes nothing',
  engineer: 'imports readings, describes units, judges and records',
  planner: 'makes and accepts plans, records cleanings',
  manager: 'states prices, works through the review',
  administrator: 'does everything, lets people and programs in',
};

export function roleWords(role: string): string {
  return ROLE_WORDS[role] ?? '';
}

/** Roles to choose from, the one that can do least first. */
export const ROLE_CHOICES = Object.entries(ROLE_WORDS).map(([value, words]) => ({ value, words }));
