/** Documented codes of everything that can be refused; each is mapped once to an exit code and an HTTP status. */
export const ERROR_CODES = {
  'invalid-input': { status: 422, title: 'The input does not hold what is needed' },
  'not-found': { status: 404, title: 'There is no such thing here' },
  'not-allowed': { status: 403, title: 'This request is not allowed' },
  'not-signed-in': { status: 401, title: 'Nobody is signed in' },
  'method-not-allowed': { status: 405, title: 'This address is not used like this' },
  'unsupported-type': { status: 415, title: 'What was sent is not of a kind that is taken here' },
  'too-many-requests': { status: 429, title: 'Too many requests in a short time' },
  'too-large': { status: 413, title: 'More was sent than is taken at once' },
  conflict: { status: 409, title: 'Something else has changed this in the meantime' },
  'not-readable': { status: 422, title: 'The file cannot be read' },
  'database-unusable': { status: 503, title: 'The database cannot be used' },
  'solver-unusable': { status: 503, title: 'The solver of plans cannot be used' },
} as const;

export type ErrorCode = keyof typeof ERROR_CODES;

/** One thing wrong with an input: where (field path, and line where there is one), what, and what to do. */
export type Fault = { field: string; message: string; line?: number };

/** An error a user can act on. Everything else is a programmer's mistake and stays an ordinary Error. */
export class AppError extends Error {
  readonly code: ErrorCode;
  readonly faults: Fault[];

  constructor(code: ErrorCode, message: string, faults: Fault[] = []) {
    super(message);
    this.name = 'AppError';
    this.code = code;
    this.faults = faults;
  }
}
