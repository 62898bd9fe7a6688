import { type PeopleRecords, peopleView } from './people-view';

const COLUMNS = ['mail', 'name', 'role', 'state', 'last seen'];

/** The accounts as the command line prints them. */
export function peopleTable(records: PeopleRecords) {
  const instant = (at: number | null) => (at === null ? null : new Date(at).toISOString());
  const document = records.people.map((person) => ({
    email: person.email,
    name: person.name,
    role: person.role,
    disabledAt: instant(person.disabledAt),
    locked: person.locked !== null,
    lastSeenAt: instant(person.lastSeenAt),
  }));
  const { people } = peopleView(records, null);
  const rows = people.map(({ email, name, role, state, lastSeen }) => [email, name, role, state, lastSeen]);
  return { document, table: { columns: COLUMNS, rows } };
}
