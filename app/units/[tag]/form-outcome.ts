/** What became of a form: nothing yet, done, or refused with the faults by field and everything typed kept. */
export type FormOutcome =
  | { kind: 'none' }
  | { kind: 'done'; message: string }
  | { kind: 'refused'; message: string; errors: Record<string, string>; fields: Record<string, string> };

export const NOTHING_YET: FormOutcome = { kind: 'none' };
