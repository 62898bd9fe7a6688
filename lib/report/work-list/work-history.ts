import type { PlannedChangeRecord } from '@/lib/contract/planned';
import { formatInstant } from '@/lib/report/format/time';
import { windowInWords } from './window-words';

const DID: Record<PlannedChangeRecord['kind'], string> = {
  moved: 'moved',
  done: 'marked done',
  'called-off': 'called off',
  'opened-again': 'open again, its cleaning was withdrawn',
};

/** What was changed about a piece of work, who did that and why, the latest first. */
export function workHistory(changes: readonly PlannedChangeRecord[] | undefined, timeZone: string): string[] {
  return (changes ?? []).toReversed().map(({ kind, at, by, reason, from, to }) => {
    const who = by === null ? '' : ` by ${by}`;
    const before = kind === 'moved' ? ` from ${windowInWords({ from, to }, timeZone)}` : '';
    const why = reason === null ? '' : `: ${reason}`;
    return `${formatInstant(at, timeZone)}: ${DID[kind]}${who}${before}${why}`;
  });
}
