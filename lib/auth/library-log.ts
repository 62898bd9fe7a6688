/** An error in pino's levels. */
const ERROR = 50;

/** What the sign-in library complains about, as one JSON line like every other; what it adds to the text may be secret and is left out. */
export function logLibrary(message: string): void {
  const line = { level: ERROR, time: new Date().toISOString(), name: 'cleanby', event: 'sign-in-library' };
  process.stderr.write(`${JSON.stringify({ ...line, msg: message })}\n`);
}
