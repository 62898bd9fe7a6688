/** What one check looked at, in words, and what it found wrong; none is good. */
export type Finding = { looked: string; problems: string[] };

/** A row of an answer: counts come as numbers or as their digits, whichever the database gives. */
export type Row = Record<string, unknown>;

/** SQL in the words that both databases know, and what is made of each row of the answer. */
export type Question = { sql: string; take: (row: Row) => void };

/** Questions put one after the other to a database, and what they come to. */
export type Look = { questions: readonly Question[]; finding: () => Finding };

/** Something that must hold between the rows of a database, whatever was done to it. */
export type Invariant = {
  name: string;
  /** Tables it needs, or columns as `table.column`; in a schema without them there is nothing to look at. */
  tables: readonly string[];
  look: () => Look;
};

type Stated = {
  name: string;
  tables: readonly string[];
  /** SQL that counts what is looked at, as `n`. */
  count: string;
  /** What that is, such as "readings". */
  things: string;
  /** SQL of the rows that break it, each with what is wrong as `problem`. */
  wrong: string;
};

/** An invariant said in SQL. */
export function sqlInvariant({ name, tables, count, things, wrong }: Stated): Invariant {
  const look = (): Look => {
    let counted = 0;
    const problems: string[] = [];
    return {
      questions: [
        {
          sql: count,
          take: ({ n }) => {
            counted = Number(n);
          },
        },
        { sql: wrong, take: ({ problem }) => void problems.push(String(problem)) },
      ],
      finding: () => ({ looked: `${counted} ${things}`, problems }),
    };
  };
  return { name, tables, look };
}

/** The first thing wrong with a row, in words; null where it is as it should be. */
export type RowProblem = (row: Row) => string | null;

/** An invariant that each row is judged by itself. */
export function rowInvariant({
  name,
  tables,
  rows,
  things,
  problemOf,
}: Omit<Stated, 'count' | 'wrong'> & { rows: string; problemOf: RowProblem }): Invariant {
  const look = (): Look => {
    let counted = 0;
    const problems: string[] = [];
    const take = (row: Row) => {
      counted++;
      const problem = problemOf(row);
      if (problem !== null) problems.push(problem);
    };
    return {
      questions: [{ sql: rows, take }],
      finding: () => ({ looked: `${counted} ${things}`, problems }),
    };
  };
  return { name, tables, look };
}

/** Whether every one of some texts is JSON; what is not there counts as such. */
export function areJson(...texts: unknown[]): boolean {
  try {
    for (const text of texts) if (text !== null) JSON.parse(String(text));
    return true;
  } catch {
    return false;
  }
}
