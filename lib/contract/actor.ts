/**
 * Who does something: a person with an account, a program with a token, whoever runs commands on this machine, or the
 * system itself (the demonstration's data, a watched folder).
 */
export type Actor = {
  kind: 'person' | 'token' | 'local' | 'system';
  /** Number of the account or token; null where there is none. */
  id: string | null;
  /** What a record shows; it stays as it was when the account is renamed. */
  name: string;
};

/** Whoever can read and write the database file on this machine. */
export const LOCAL_ACTOR: Actor = { kind: 'local', id: null, name: 'command line' };

/** Whoever comes in where no account is asked for. */
export const NOBODY: Actor = { kind: 'system', id: null, name: 'nobody in particular' };
