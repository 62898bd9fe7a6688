import type { ChangeSubject, KeptChange } from '@/lib/contract/change-record';
import { changedFields, type FieldValues } from '@/lib/contract/changed-fields';
import { fieldInWords } from '../setup/field-words';
import { valueInWords, withUnit } from './values-in-words';

/** One field of a change: what it is, how it stood and how it stands. */
export type FieldLine = { field: string; before: unknown; after: unknown };

const WORDS: Record<string, string> = {
  at: 'Back in service',
  cost: 'Cost',
  from: 'From',
  to: 'To',
  method: 'Method',
  duration: 'Duration',
  note: 'Note',
  number: 'Number',
  cleaning: 'Cleaning',
  cleanedAt: 'Cleaned',
  timeZone: 'Time zone',
  currency: 'Currency',
  crewHoursPerWeek: 'Crew outside outages [h a week]',
  crewHours: 'crew hours',
  unitVersion: 'Datasheet version',
  'cost.cleaning': 'Cost of the cleanings',
  'cost.downtime': 'Cost of downtime',
  'cost.loss': 'Loss',
  'cost.total': 'Cost in all',
};

/** Every field that a change added, changed or took away. */
export function fieldLines({ subject, before, after }: KeptChange): FieldLine[] {
  const changed = changedFields(flat(before), flat(after));
  const paths = [...new Set([...Object.keys(changed.before), ...Object.keys(changed.after)])];
  return paths.map((path) => ({
    field: nameOf(subject, path),
    before: changed.before[path] ?? null,
    after: changed.after[path] ?? null,
  }));
}

/** Where only what changed was written down, its paths are the names already. */
function flat(document: unknown): FieldValues {
  return document !== null && typeof document === 'object' ? (document as FieldValues) : {};
}

function nameOf(subject: ChangeSubject, path: string): string {
  if (subject === 'unit' && path !== 'site' && path !== 'version') return fieldInWords(`unit.${path}`);
  const known = WORDS[path] ?? WORDS[path.split('.').at(-1)!];
  const outage = /^outages\.(.*)\.(\w+)$/.exec(path);
  if (outage !== null) return `Outage “${outage[1]}”, ${(known ?? outage[2]!).toLowerCase()}`;
  if (path.startsWith('notTogether.')) return `${path.slice('notTogether.'.length)} not out together`;
  return known ?? spaced(path);
}

/** `undoneAt` → "Undone at". */
function spaced(name: string): string {
  const words = name
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replaceAll('.', ', ')
    .toLowerCase();
  return words.replace(/^./, (letter) => letter.toUpperCase());
}

/** A line as the table of a change shows it. */
export function lineInWords({ field, before, after }: FieldLine, timeZone: string) {
  const text = (value: unknown) => withUnit(valueInWords(value, timeZone));
  return { field, before: text(before), after: text(after) };
}
