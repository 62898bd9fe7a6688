import type { ChangeAction, ChangeSubject, KeptChange } from '@/lib/contract/change-record';
import type { ReferenceMethod } from '@/lib/contract/clean-references';
import { countOf, LIMIT_WORDS } from '../format/words';
import { METHOD_WORDS } from '../reference/factor-words';
import { fieldLines } from './field-lines';
import { stepInWords, valueInWords, withUnit } from './values-in-words';

/** Fields that a line names; more of them are counted. */
const MOST_FIELDS = 3;

export const SUBJECT_WORDS: Record<ChangeSubject, string> = {
  site: 'Site',
  unit: 'Datasheet',
  limit: 'Limit',
  reference: 'Clean reference',
  cleaning: 'Cleaning',
  file: 'File of a cleaning',
  override: 'Judged period',
  fall: 'Answer to a fall',
  review: 'Review mark',
  price: 'Price',
  calendar: 'Calendar',
  plan: 'Plan',
  'planned-work': 'Planned work',
  import: 'Import',
  mapping: 'Mapping',
  account: 'Account',
  invitation: 'Invitation',
  token: 'Token',
};

export const ACTION_WORDS: Record<ChangeAction, string> = {
  added: 'added',
  changed: 'changed',
  withdrawn: 'withdrawn',
  accepted: 'accepted',
  moved: 'moved',
  done: 'done',
  'called-off': 'called off',
  'opened-again': 'opened again',
  undone: 'undone',
  'signed-in': 'signed in',
  locked: 'locked',
};

type Document = Record<string, unknown>;
type Told = { change: KeptChange; before: Document; after: Document; zone: string };

/** One change as one line: what became of what. Who and when stand beside it. */
export function changeInWords(change: KeptChange, timeZone: string): string {
  const document = (value: unknown) => (value ?? {}) as Document;
  const told = { change, before: document(change.before), after: document(change.after), zone: timeZone };
  return (LINES[change.subject] ?? plainLine)(told);
}

/** Subjects with a sentence of their own; the others say subject, name, action and fields. */
const LINES: Partial<Record<ChangeSubject, (told: Told) => string>> = {
  limit: limitLine,
  unit: unitLine,
  reference: ({ change, after }) =>
    `Clean reference ${after.number} of ${change.name} accepted: ${METHOD_WORDS[after.method as ReferenceMethod]}`,
  cleaning: cleaningLine,
  file: ({ change, after, zone }) =>
    `File ${after.name} kept with the cleaning of ${change.name}, ${said(after.cleanedAt, zone)}`,
  override: overrideLine,
  fall: fallLine,
  review: ({ change, after }) => `Review of ${change.name}: ${markInWords(after)}`,
  price: priceLine,
  plan: ({ change, after }) =>
    `Plan ${after.plan} for ${change.name} accepted: ${countOf(Number(after.cleanings), 'cleaning')}`,
  'planned-work': workLine,
  import: importLine,
};

function said(value: unknown, zone: string): string {
  return withUnit(valueInWords(value, zone));
}

function plainLine({ change, zone }: Told): string {
  const { subject, name, action } = change;
  const head = `${SUBJECT_WORDS[subject]} ${subject === 'calendar' ? 'of ' : ''}${name} ${ACTION_WORDS[action]}`;
  return action === 'changed' ? `${head}: ${fieldsInWords(change, zone)}` : head;
}

function fieldsInWords(change: KeptChange, zone: string): string {
  const lines = fieldLines(change);
  const named = lines
    .slice(0, MOST_FIELDS)
    .map(({ field, before, after }) => `${field} ${stepInWords(before, after, zone)}`);
  const rest = lines.length - named.length;
  return [...named, ...(rest > 0 ? [`${countOf(rest, 'more field')}`] : [])].join('; ');
}

function limitLine({ change, before, after, zone }: Told): string {
  const { kind, stream } = (change.after ?? change.before) as Document;
  const side = stream === undefined ? '' : `, ${stream} side`;
  const words = LIMIT_WORDS[kind as keyof typeof LIMIT_WORDS].replace(/^./, (letter) => letter.toUpperCase());
  const what = `${words.replace(' ', '-')} limit of ${change.name}${side}`;
  const level = ({ value, above, below }: Document) => value ?? above ?? below;
  if (change.action === 'added') return `${what}: ${said(level(after), zone)}, new`;
  if (change.action === 'withdrawn') return `${what} taken away; it was ${said(level(before), zone)}`;
  return `${what}: ${stepInWords(level(before), level(after), zone)}`;
}

function unitLine({ change, after, zone }: Told): string {
  const service = after.service === null || after.service === undefined ? '' : `, ${after.service},`;
  return change.action === 'added'
    ? `Unit ${change.name}${service} added at ${after.site}`
    : `Datasheet of ${change.name}: ${fieldsInWords(change, zone)}`;
}

function cleaningLine({ change, before, after, zone }: Told): string {
  const { name, action } = change;
  const when = said(before.at ?? after.at, zone);
  if (action === 'added') return `Cleaning of ${name} recorded: ${when}`;
  if (action === 'withdrawn') return `Cleaning of ${name}, ${when}, withdrawn`;
  return `Cleaning of ${name}, ${when}: ${fieldsInWords(change, zone)}`;
}

function overrideLine({ change, before, after, zone }: Told): string {
  const isWithdrawn = change.action === 'withdrawn';
  const { from, to, verdict } = isWithdrawn ? before : after;
  const what = `Readings of ${change.name}, ${said(from, zone)} to ${said(to, zone)}`;
  if (isWithdrawn) return `${what}: judged by the checks alone again`;
  return `${what}: ${verdict === 'exclude' ? 'left out' : 'counted in'}`;
}

function fallLine({ change, before, after, zone }: Told): string {
  const isWithdrawn = change.action === 'withdrawn';
  const what = `Fall of ${change.name} on ${said((isWithdrawn ? before : after).day, zone)}`;
  if (isWithdrawn) return `${what}: answer withdrawn`;
  return `${what}: ${after.answer === 'cleaning' ? 'it was cleaned' : 'it was not cleaned'}`;
}

function markInWords({ line, kind, text }: Document): string {
  const about = String(line).replace('@', ' of ');
  if (kind === 'assigned') return `${about} taken on by ${text}`;
  return kind === 'note' ? `${about}: “${text}”` : `${about} ${kind === 'seen' ? 'seen' : 'opened again'}`;
}

function priceLine({ change, before, after, zone }: Told): string {
  const { supply, from } = change.after === null ? before : after;
  const what = `${supply ?? 'Supply'} at ${change.name}${from === undefined ? '' : ` from ${said(from, zone)}`}`;
  if (change.action === 'withdrawn') return `${what}: no longer stated`;
  const parts = (['price', 'carbon'] as const)
    .filter((name) => JSON.stringify(before[name] ?? null) !== JSON.stringify(after[name] ?? null))
    .map((name) =>
      change.action === 'added' ? said(after[name], zone) : stepInWords(before[name], after[name], zone),
    );
  return `${what}: ${parts.join(', ')}`;
}

function workLine({ change, before, after, zone }: Told): string {
  const what = `Work on ${change.name}, ${said(before.from, zone)}`;
  if (change.action === 'moved') return `${what}: moved to ${said(after.from, zone)}`;
  return `${what}: ${ACTION_WORDS[change.action]}`;
}

function importLine({ change, before, after }: Told): string {
  if (change.action === 'undone') {
    const { removed, restored } = after;
    return `Import ${before.batch} (${change.name}) undone: ${countOf(Number(removed), 'reading')} removed, ${restored} put back`;
  }
  const { batch, added, replaced, setAside } = after;
  return `Import ${batch} (${change.name}): ${countOf(Number(added), 'reading')} added, ${replaced} replaced, ${setAside} set aside`;
}
