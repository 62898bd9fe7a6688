export const EMPTY_PORT = 4311;

/** A server on which nobody has an account when the browser tests begin. */
export const EMPTY_ADDRESS = `http://127.0.0.1:${EMPTY_PORT}`;
