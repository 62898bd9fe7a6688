import type { Actor } from '@/lib/contract/actor';
import { CHANGE_ACTIONS, CHANGE_SUBJECTS, type KeptChange } from '@/lib/contract/change-record';
import { type ChangesQuery, PEOPLE_SUBJECTS } from '@/lib/contract/changes';
import { isoInZone } from '@/lib/time/local-day';
import { formatInstant } from '../format/time';
import { countOf } from '../format/words';
import { unitPath } from '../unit/unit-address';
import { ACTION_WORDS, changeInWords, SUBJECT_WORDS } from './change-words';
import { changesHref } from './changes-address';
import { type ChangesRecords, zoneOf } from './changes-records';
import { fieldLines, lineInWords } from './field-lines';

type Choice = { value: string; label: string };

export type ChangeRow = {
  id: number;
  /** ISO 8601 with offset, and the same for people. */
  at: string;
  when: string;
  who: string;
  /** What whoever changed it is, where that is no person with an account. */
  whoIs: string | null;
  text: string;
  subject: string;
  note: string | null;
  fields: { field: string; before: string; after: string }[];
  /** Page of the unit it is about. */
  unitHref: string | null;
};

/** The page of changes: what is asked for, and a page of it. */
export type ChangesView = {
  query: ChangesQuery;
  people: string[];
  tags: string[];
  subjects: Choice[];
  actions: Choice[];
  count: string;
  zone: string;
  isFiltered: boolean;
  rows: ChangeRow[];
  olderHref: string | null;
  newestHref: string | null;
  csvHref: string;
};

const KIND_WORDS: Record<Actor['kind'], string | null> = {
  person: null,
  token: 'a program',
  local: 'on this machine',
  system: 'by itself',
};

export function changesView(records: ChangesRecords, seesPeople: boolean): ChangesView {
  const { query, changes, total, next, people, timeZone } = records;
  const { before, format: _, ...asked } = query;
  const subjects = CHANGE_SUBJECTS.filter((subject) => seesPeople || !PEOPLE_SUBJECTS.includes(subject));
  return {
    query,
    people,
    tags: records.tags,
    subjects: subjects.map((value) => ({ value, label: SUBJECT_WORDS[value] })),
    actions: CHANGE_ACTIONS.map((value) => ({ value, label: ACTION_WORDS[value] })),
    count: countOf(total, 'change'),
    zone: timeZone,
    isFiltered: Object.keys(asked).length > 0,
    rows: changes.map((change) => rowOf(change, records)),
    olderHref: next === null ? null : changesHref(asked, { before: next }),
    newestHref: before === undefined ? null : changesHref(asked),
    csvHref: changesHref(asked, { format: 'csv' }, '/api/v1/changes'),
  };
}

function rowOf(change: KeptChange, records: ChangesRecords): ChangeRow {
  const zone = zoneOf(change, records);
  const { id, at, actor, subject, name, note } = change;
  return {
    id,
    at: isoInZone(at, zone),
    when: formatInstant(at, zone),
    who: actor.name,
    whoIs: KIND_WORDS[actor.kind],
    text: changeInWords(change, zone),
    subject: SUBJECT_WORDS[subject],
    note,
    fields: fieldLines(change).map((line) => lineInWords(line, zone)),
    unitHref: records.tags.includes(name) ? unitPath(name) : null,
  };
}
