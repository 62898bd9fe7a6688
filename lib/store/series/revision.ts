/** What pages show, in parts that change apart from one another; and what units tell each other. */
export type RevisedPart = 'entities' | 'readings' | 'results' | 'tellings';

/**
 * Statement that makes a part's revision grow, the same on each database. Run it last in a transaction: everybody else who
 * changes that part waits from then on.
 */
export function bumpRevision(part: RevisedPart): string {
  return `INSERT INTO data_revision (name, number) VALUES ('${part}', 1)
     ON CONFLICT (name) DO UPDATE SET number = data_revision.number + 1`;
}

export const READ_REVISIONS = 'SELECT name, number FROM data_revision ORDER BY name';

/** All revisions as one text: another one means that something has changed. */
export function revisionText(rows: readonly { name: string; number: number | string }[]): string {
  return rows.map(({ name, number }) => `${name}:${number}`).join(' ');
}
