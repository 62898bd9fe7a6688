import { cookies } from 'next/headers';

/** Cookie with the name of whoever uses this browser: there are no accounts to take it from. */
export const PERSON_COOKIE = 'person';

/** The name this browser remembers; empty where nobody has given one. */
export async function readPerson(): Promise<string> {
  return (await cookies()).get(PERSON_COOKIE)?.value ?? '';
}
