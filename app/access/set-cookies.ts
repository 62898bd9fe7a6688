import { parseSetCookieHeader, toCookieOptions } from 'better-auth/cookies';
import { cookies } from 'next/headers';

/** Hands cookies of the sign-in library to the browser that a form came from. */
export async function setCookies(sent: string[]): Promise<void> {
  const jar = await cookies();
  for (const line of sent) {
    for (const [name, cookie] of parseSetCookieHeader(line)) {
      jar.set(name, cookie.value, toCookieOptions(cookie));
    }
  }
}
