import { readPublished } from '../../support/published-data';
import type { Check, Origin } from './check';
import { asWritten, type Tolerance } from './tolerance';

// biome-ignore lint/suspicious/noExplicitAny: each case has its own keys
type Case = any;
const { cases } = readPublished<{ cases: Case[] }>('trend-statistics');

/** A case of the file by its id. */
export const trendCase = (id: string): Case => cases.find((one) => one.id === id);
/** The cases of the Hampel identifier. */
export const hampelCases: Case[] = cases.filter((one) => one.id.startsWith('hampel-'));

export const counted = (length: number, first = 0) => Array.from({ length }, (_, i) => first + i);

const FILE = asWritten(1e-8, 'the file');

type Meta = Pick<Check, 'id' | 'source' | 'isIterated'> & { origin?: Origin; tolerance?: Tolerance };

/** One check for each named figure of a case. */
export function figures(
  { id, origin = 'computed', tolerance = FILE, ...meta }: Meta,
  pairs: Record<string, [theirs: number, ours: number]>,
): Check[] {
  return Object.entries(pairs).map(([quantity, [theirs, ours]]) => ({
    id: `${id}: ${quantity}`,
    quantity,
    unit: '–',
    ...meta,
    origin,
    tolerance,
    rows: [{ at: '', theirs, ours }],
  }));
}
