import type { FormOutcome } from '@/app/units/[tag]/form-outcome';

/** What became of the form of a token; its secret goes to the browser here, once, and is kept nowhere. */
export type TokenOutcome = FormOutcome | { kind: 'made'; name: string; secret: string };
