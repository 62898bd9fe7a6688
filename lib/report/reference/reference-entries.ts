import type { Fault } from '@/lib/contract/app-error';
import {
  REFERENCE_METHODS,
  type ReferenceMethod,
  type ReferenceProposal,
} from '@/lib/contract/clean-references';
import { type SearchParams, unitPath } from '@/lib/report/unit/unit-address';
import { localInstant } from '@/lib/time/local-instant';

/** Since when a proposed reference would hold. */
export const HOLDS = ['cleaning', 'beginning', 'at'] as const;
export type Holds = (typeof HOLDS)[number];

/** What a person asked to be worked out, as typed: it stands in the address, so that a link shows the same. */
export type ReferenceEntries = {
  /** Null: nothing was asked for yet. */
  method: ReferenceMethod | null;
  /** Local times of the site, `2026-05-04T08:00`; blank: as usual. */
  from: string;
  to: string;
  holds: Holds;
  holdsAt: string;
};

/** Reads the address, or the fields of the form; what cannot be read counts as not given. */
export function readReferenceEntries(params: SearchParams): ReferenceEntries {
  const text = (name: string) => [params[name]].flat()[0] ?? '';
  return {
    method: REFERENCE_METHODS.find((method) => method === text('method')) ?? null,
    from: text('from'),
    to: text('to'),
    holds: HOLDS.find((holds) => holds === text('holds')) ?? 'cleaning',
    holdsAt: text('holdsAt'),
  };
}

/** The request behind the entries; null where nothing was asked for or a time cannot be read. */
export function proposalOf(
  entries: ReferenceEntries,
  timeZone: string,
): { proposal: ReferenceProposal | null; faults: Fault[] } {
  const { method } = entries;
  if (method === null) return { proposal: null, faults: [] };
  const faults: Fault[] = [];
  const instant = (field: string, text: string) => {
    const at = localInstant(text, timeZone);
    if (typeof at === 'number') return new Date(at).toISOString();
    const message =
      at === 'no-time'
        ? 'give day and time, such as 2026-05-04 08:00'
        : `this local time occurs twice or never in ${timeZone} (the clocks change); give one an hour away`;
    faults.push({ field, message });
    return null;
  };
  const isLearned = method === 'scale' || method === 'two-films';
  const isDated = isLearned && (entries.from !== '' || entries.to !== '');
  const from = isDated ? instant('from', entries.from) : null;
  const to = isDated ? instant('to', entries.to) : null;
  if (from !== null && to !== null && from >= to)
    faults.push({ field: 'to', message: 'it must end after it begins' });
  const since = holdsFrom(entries, (text) => instant('holdsAt', text));
  if (faults.length > 0) return { proposal: null, faults };
  const learnFrom = from !== null && to !== null ? { from, to } : null;
  return { proposal: { method, learnFrom, ...(since === undefined ? {} : { from: since }) }, faults };
}

/** Undefined: the cleaning before the period, or the beginning where there is none. */
function holdsFrom({ holds, holdsAt }: ReferenceEntries, instant: (text: string) => string | null) {
  if (holds === 'cleaning') return undefined;
  return holds === 'beginning' ? null : instant(holdsAt);
}

export function referencePath(tag: string): string {
  return `${unitPath(tag)}/reference`;
}
